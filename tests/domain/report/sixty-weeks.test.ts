import { describe, expect, it } from 'vitest'
import { weekGroups } from '../../support/weeks/all-weeks.ts'
import { isEmpty, repeated, weekText, weekTold } from '../../support/weeks/week-text.ts'

/*
 * Reports as their owners read them. What they say is read by people when it changes (the files beside this one); what may be
 * in no report is asserted of each.
 */
const all = Object.values(weekGroups).flat()

describe('the told weeks', () => {
  it('are sixty and more, each under a name of its own', () => {
    expect(all.length).toBeGreaterThanOrEqual(60)
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length)
  })

  it.each(Object.entries(weekGroups))(
    'of the group "%s" read as they were last read',
    async (group, weeks) => {
      const text = weeks.map(({ name, report }) => `==== ${name}\n${weekText(report)}\n`).join('\n')
      await expect(text).toMatchFileSnapshot(`./sixty-weeks/${group.replace(' ', '-')}.txt`)
    },
  )
})

describe.each(all)('the week "$name"', ({ report, names }) => {
  const text = weekText(report)
  const told = weekTold(report)
  const sentences = told.flatMap(({ texts }) => texts)

  it('has no empty section, list or heading', () => {
    expect(report.sections.filter(({ heading, blocks }) => heading === '' || blocks.length === 0)).toEqual([])
    expect(report.sections.flatMap(({ blocks }) => blocks).filter(isEmpty)).toEqual([])
    expect(sentences.filter((each) => each.trim() === '')).toEqual([])
    expect(report.opening.length).toBeGreaterThan(0)
  })

  it('has nothing that no person would write', () => {
    expect(text.match(/\b(undefined|null|NaN|Infinity|object)\b|\[object/)).toBeNull()
    expect(text.match(/ {2}| [.,;:!?]|(?<!\.)\.\.(?!\.)|\.,|,\.|,,|;\.|:\.|;;|!\.|\?\./)).toBeNull()
  })

  it('begins its sentences with a capital and ends them with a stop', () => {
    expect(sentences.filter((each) => !isSentence(each))).toEqual([])
  })

  it('has its articles and numbers right', () => {
    expect(text.match(/\b[Aa] [aeio]\w*|\b[Aa]n [bcdfgjklmnpqrstvwxyz]\w*/)).toBeNull()
    expect(text.match(/\b1 (hours|gates|repairs|tasks|things|decisions|days)\b/)).toBeNull()
    expect(text.match(/\b([02-9]|[1-9]\d+) (hour|gate|repair|task|thing|decision|day)\b/)).toBeNull()
  })

  it('says nothing twice and names technicians only where that is wanted', () => {
    expect(repeated(told.flatMap(({ of, texts }) => texts.map((each) => `${of}: ${each}`)))).toEqual([])
    expect(told.flatMap(({ texts }) => repeated(texts.flatMap((each) => each.split(/(?<=[.!?]) /))))).toEqual(
      [],
    )
    expect(/\b(Joss|Wren|Ines|Mara)\b/.test(text)).toBe(names)
  })
})

/** An intro of a list ends with a colon; names that the workshop writes small may begin one. */
const isSentence = (text: string): boolean =>
  /^[\p{Lu}\d‘"(]/u.test(text) && /[.!?…:]$|[.!?]["’”)]$/u.test(text)
