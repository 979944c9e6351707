import { expect, it } from 'vitest'
import { planSheet, type SheetOrder } from '../../../domain/plan/plan-sheet.ts'
import { printPlan } from '../../../electron/print/print-plan.ts'
import { describePdf, readPdf } from '../../support/pdf-tools.ts'
import {
  bay3,
  joss,
  planAt,
  planOf,
  plannedMove,
  plannedWork,
  planTelling,
  wren,
} from '../../support/planned.ts'

const order: SheetOrder = {
  plan: planOf({ work: [plannedWork({ people: [wren, joss] })], moves: [plannedMove()] }),
  of: { kind: 'person', personId: wren },
  telling: planTelling(),
  workshop: 'Harrow Lane',
  name: 'Wren',
  takenAt: planAt('2026-11-25', '11:00'),
  now: planAt('2026-11-26', '07:00'),
}
const print = async (more: Partial<SheetOrder> = {}) =>
  readPdf(await printPlan(planSheet({ ...order, ...more })))

describePdf('a printed plan', () => {
  it('holds everything as text that can be searched', async () => {
    const { text } = await print()
    for (const words of [
      'Harrow Lane',
      'Printed Thu 26 Nov 2026, 07:00',
      'Plan of Wren',
      '26 Nov to 20 Dec 2026. Plan taken Wed 25 Nov 2026, 11:00; made Wed 25 Nov 2026, 10:40',
      'Week 48, 23 to 29 Nov',
      'Thu 26 Nov',
      '07:30 to 08:00',
      'Move from Bay 1 to Bay 3',
      '08:00 to 14:30',
      'Dunmere Saloon',
      'Sill, left: welded',
      'with Joss',
      'Waits for the sealer until Thu 26 Nov, 08:00',
      'Fri 27 Nov',
      'Nothing planned.',
      'Support the shell before you cut',
      'Hot work is planned to end early enough for its fire watch.',
      'Local codes, data sheets and the licensed inspector come before the plan.',
    ])
      expect(text).toContain(words)
  })

  it('embeds its fonts and says who made it about what, in which language', async () => {
    const bytes = await printPlan(planSheet(order))
    const { fonts, info } = await readPdf(bytes)
    expect(fonts.length).toBeGreaterThanOrEqual(2)
    expect(
      fonts.filter(({ name, embedded, unicode }) => !embedded || !unicode || !name.includes('Archivo')),
    ).toEqual([])
    expect(info.get('Title')).toBe('Plan of Wren: 26 Nov to 20 Dec 2026')
    expect(info.get('Author')).toBe('Harrow Lane')
    expect(info.get('Tagged')).toBe('yes')
    expect(info.get('Page size')).toContain('A4')
    expect(bytes.toString('latin1')).toContain('/Lang (en-GB)')
  })

  it('is tagged: a heading for each week and day, a table for its work, its times as heads of the rows', async () => {
    const { structure } = await print()
    for (const tag of ['Document', 'H1', 'H2', 'H3', 'P', 'Table', 'TR', 'TH', 'TD'])
      expect(structure).toMatch(new RegExp(`^ *${tag}\\b`, 'm'))
    // Two rows on Thursday, three cells each.
    expect(structure.match(/^ *TR\b/gm)).toHaveLength(2)
    expect(structure.match(/^ *TD\b/gm)).toHaveLength(4)
    expect(structure).toMatch(/TH[^\n]*\n(?: *\/[^\n]*\n)* *"08:00 to 14:30"/)
  })

  it('says on each page which plan it is', async () => {
    const { text, pages } = await print({ plan: planOf({ work: manyDays() }) })
    expect(pages).toBeGreaterThan(1)
    expect(text.match(/plan taken Wed 25 Nov 2026, 11:00, page \d of \d/g)).toHaveLength(pages)
    expect(text).toContain(`page ${pages} of ${pages}`)
  })

  it('says on each page of a proposal that it is not taken', async () => {
    const { text, pages, info } = await print({ takenAt: null })
    expect(text).toContain('a proposal')
    expect(text.match(/plan not taken, page \d of \d/g)).toHaveLength(pages)
    expect(info.get('Title')).toMatch(/ \(not taken\)$/)
  })

  it('puts a week or two of full days on a page', async () => {
    // Four weeks, the first without its Monday to Wednesday: 17 days with two pieces of work each.
    expect((await print({ plan: planOf({ work: manyDays() }) })).pages).toBeLessThanOrEqual(4)
  })

  it('prints a bay, and one for which nothing is planned', async () => {
    const of = { kind: 'bay', bayId: bay3 } as const
    const { text } = await print({ of, name: 'Bay 3' })
    expect(text).toContain('Plan of Bay 3')
    expect(text).toContain('Move in from Bay 1')
    expect(text).toContain('Wren and Joss')
    const empty = await print({ of, name: 'Bay 3', plan: planOf({}) })
    expect(empty.text).toContain('Nothing is planned in these weeks.')
    expect(empty.text).toContain('Support the shell before you cut')
  })

  it('loses nothing of a day with more work than a page holds', async () => {
    const names = Array.from({ length: 60 }, (_, index) => `Piece number ${index} of work`)
    const work = names.map((_, index) => plannedWork({ hours: index }))
    const telling = planTelling()
    const { text, pages } = await print({
      plan: planOf({ work }),
      telling: {
        ...telling,
        names: { ...telling.names, work: (each) => names[work.indexOf(each as never)] ?? '' },
      },
    })
    expect(pages).toBeGreaterThan(2)
    for (const name of names) expect(text).toContain(name)
    // The day is named again at the head of each page that it goes on to.
    expect(text.match(/Thu 26 Nov Dunmere|Thu 26 Nov 08:00/g)?.length).toBeGreaterThan(1)
  })
})

/** Two pieces on each working day of four weeks. */
function manyDays() {
  return Array.from({ length: 25 }, (_, index) => index)
    .filter((index) => ![2, 3].includes(index % 7))
    .flatMap((index) => {
      const day = index * 86_400_000
      const { start, finish } = plannedWork()
      return [
        plannedWork({ start: start + day, finish: finish + day }),
        plannedWork({ start: finish + day, finish: finish + day + 3_600_000 }),
      ]
    })
}
