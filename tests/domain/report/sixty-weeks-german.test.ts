import { describe, expect, it } from 'vitest'
import { clause } from '../../../domain/report/sentences.ts'
import { weekGroups } from '../../support/weeks/all-weeks.ts'
import { isEmpty, repeated, weekText, weekTold } from '../../support/weeks/week-text.ts'

/*
 * The same weeks in German: what people typed stays as they typed it, in English here, and everything else is German. What
 * they say is read by people when it changes (the files beside this one).
 */
const all = Object.values(weekGroups).flat()

describe('the told weeks in German', () => {
  it.each(Object.entries(weekGroups))(
    'of the group "%s" read as they were last read',
    async (group, weeks) => {
      const text = weeks.map(({ name, german }) => `==== ${name}\n${weekText(german)}\n`).join('\n')
      await expect(text).toMatchFileSnapshot(`./sixty-weeks-german/${group.replace(' ', '-')}.txt`)
    },
  )

  it('hold as many sections and blocks as in English', () => {
    const shapeOf = (report: (typeof all)[number]['report']) =>
      report.sections.map(({ blocks }) => blocks.map(({ kind }) => kind))
    for (const { report, german } of all) expect(shapeOf(german)).toEqual(shapeOf(report))
  })
})

describe.each(all)('the week "$name" in German', ({ german, typed, names }) => {
  const text = weekText(german)
  const told = weekTold(german)
  const sentences = told.flatMap(({ texts }) => texts)

  it('is whole and says nothing that no person would write', () => {
    expect(german.sections.flatMap(({ blocks }) => blocks).filter(isEmpty)).toEqual([])
    expect(sentences.filter((each) => each.trim() === '')).toEqual([])
    expect(text.match(/\b(undefined|null|NaN|Infinity|object)\b|\[object/)).toBeNull()
    expect(text.match(/ {2}| [.,;:!?]|(?<!\.)\.\.(?!\.)|\.,|,\.|,,|;\.|:\.|;;|!\.|\?\./)).toBeNull()
  })

  it('begins its sentences with a capital and ends them with a stop', () => {
    expect(sentences.filter((each) => !/^[\p{Lu}\d„"(]/u.test(each) || !ENDS.test(each))).toEqual([])
  })

  it('has no English outside of what people typed', () => {
    expect(withoutTyped(text, [...typed, german.owner]).match(ENGLISH)).toBeNull()
  })

  it('writes figures, days and quotes as German does, and its numbers right', () => {
    const own = withoutTyped(text, [...typed, german.owner])
    expect(own.match(/\d\.\d|\d h\b|[‘’]|\d (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b/)).toBeNull()
    expect(
      own.match(/\b(1|eine?|einen) (Reparaturen|Arbeitsschritte|Entscheidungen|Befunde|Tage|Wochen)\b/),
    ).toBeNull()
    expect(own.match(/\b(keine|keinen) (Reparaturen|Arbeitsschritte) abgeschlossen/)).toBeNull()
  })

  it('says nothing twice and names technicians only where that is wanted', () => {
    expect(repeated(told.flatMap(({ of, texts }) => texts.map((each) => `${of}: ${each}`)))).toEqual([])
    expect(/\b(Joss|Wren|Ines|Mara)\b/.test(text)).toBe(names)
  })
})

const ENDS = /[.!?…:]$|[.!?]["’”“)]$/u

/** Words that tell English from German; 'was', 'in', 'an', 'die' and the like are both. */
const ENGLISH =
  /\b(the|this|that|of|and|it|its|is|are|we|our|you|your|for|with|not|what|which|after|before|week|hours?|days?|done|expected|agreed|answer|repairs?|work|visit|shell|estimate|insurer|owner|opened|welded|primed|step|steps|more|less|as found|later|next|photo|Dear|Mon|Tue|Wed|Thu|Fri|Sat|Sun)\b/i

/**
 * What people typed goes, as it was typed and as it is tidied, the longest first; words of the facts' own vocabulary, which
 * are small and single, are no typed text. So do the marks that the files beside this one set between photos.
 */
function withoutTyped(text: string, typed: readonly string[]): string {
  const parts = typed
    .filter((each) => /^\p{Lu}| /u.test(each))
    .flatMap((each) => [each, ...each.split('\n'), ...clause(each).split(/(?<=[.;]) /)])
  const words = [...new Set(parts.flatMap((each) => [each.trim(), clause(each)]))]
    .filter((each) => each.length > 1)
    .toSorted((a, b) => b.length - a.length)
  const own = text.replaceAll(/\bReport \d+$|\[(before|after|photo):/gm, '')
  return words.reduce((left, each) => left.replaceAll(new RegExp(escaped(each), 'gi'), ''), own)
}

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`)
