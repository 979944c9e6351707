import { describe, expect, it } from 'vitest'
import type { ReportBlock } from '../../../domain/report/owner-week-shapes.ts'
import { badNewsWeeks, reworkWeeks } from '../../support/weeks/bad-news-weeks.ts'
import { busyWeeks } from '../../support/weeks/busy-weeks.ts'
import { decisionWeeks } from '../../support/weeks/decision-weeks.ts'
import { firstWeeks, lastWeeks } from '../../support/weeks/first-last-weeks.ts'
import { quietWeeks } from '../../support/weeks/quiet-weeks.ts'
import { termsWeeks } from '../../support/weeks/terms-weeks.ts'
import { typedWeeks } from '../../support/weeks/typed-weeks.ts'
import { weekText, weekTold } from '../../support/weeks/week-text.ts'

/*
 * Reports as their owners read them. What they say is read by people when it changes (the files beside this one); what may be
 * in no report is asserted of each.
 */
const groups = {
  quiet: quietWeeks(),
  first: firstWeeks(),
  busy: busyWeeks(),
  'bad news': badNewsWeeks(),
  rework: reworkWeeks(),
  decisions: decisionWeeks(),
  terms: termsWeeks(),
  typed: typedWeeks(),
  last: lastWeeks(),
}
const all = Object.values(groups).flat()

describe('the told weeks', () => {
  it('are sixty and more, each under a name of its own', () => {
    expect(all.length).toBeGreaterThanOrEqual(60)
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length)
  })

  it.each(Object.entries(groups))('of the group "%s" read as they were last read', async (group, weeks) => {
    const text = weeks.map(({ name, report }) => `==== ${name}\n${weekText(report)}\n`).join('\n')
    await expect(text).toMatchFileSnapshot(`./sixty-weeks/${group.replace(' ', '-')}.txt`)
  })
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

const repeated = (texts: readonly string[]): readonly string[] =>
  texts.filter((each, index) => texts.indexOf(each) !== index)

const isEmpty = (block: ReportBlock): boolean => {
  switch (block.kind) {
    case 'text':
      return block.text === ''
    case 'list':
      return block.items.length === 0
    case 'repair':
      return block.title === '' || (block.texts.length === 0 && block.plates.length === 0)
    case 'question':
      return block.title === '' || block.texts.length === 0
    case 'standing':
      return block.title === '' || block.text === ''
    case 'figures':
      return block.rows.length === 0
    case 'plates':
      return block.plates.length === 0
  }
}

/** An intro of a list ends with a colon; names that the workshop writes small may begin one. */
const isSentence = (text: string): boolean =>
  /^[\p{Lu}\d‘"(]/u.test(text) && /[.!?…:]$|[.!?]["’”)]$/u.test(text)
