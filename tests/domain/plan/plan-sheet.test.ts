import { describe, expect, it } from 'vitest'
import { planSheet, type SheetOrder } from '../../../domain/plan/plan-sheet.ts'
import {
  bay3,
  dunmere,
  joss,
  planAt,
  planOf,
  plannedWork,
  planTelling,
  sillGate,
  wren,
} from '../../support/planned.ts'

const order = (more: Partial<SheetOrder>): SheetOrder => ({
  plan: planOf({ work: [plannedWork()] }),
  of: { kind: 'person', personId: wren },
  telling: planTelling(),
  workshop: 'Harrow Lane',
  name: 'Wren',
  takenAt: planAt('2026-11-25', '11:00'),
  now: planAt('2026-11-26', '07:00'),
  ...more,
})

/** Every row with its day: 'Thu 26 Nov | 08:00 to 14:30 | …'. */
const rowsOf = (given: SheetOrder): readonly string[] =>
  planSheet(given).weeks.flatMap(({ days }) =>
    days.flatMap(({ day, rows }) => rows.map((row) => [day, ...Object.values(row)].join(' | '))),
  )

describe('the sheet of a plan', () => {
  it('says whose plan it is, for which weeks, when it was made, taken and printed', () => {
    expect(planSheet(order({}))).toMatchObject({
      workshop: 'Harrow Lane',
      title: 'Plan of Wren',
      period: '26 Nov to 20 Dec 2026',
      standing: 'taken Wed 25 Nov 2026, 11:00',
      isTaken: true,
      made: 'Wed 25 Nov 2026, 10:40',
      printed: 'Thu 26 Nov 2026, 07:00',
    })
    expect(planSheet(order({ takenAt: null }))).toMatchObject({ standing: 'not taken', isTaken: false })
  })

  it('has a heading for each ISO week, over the turn of the year too', () => {
    const sheet = planSheet(order({ now: planAt('2026-12-30', '07:00') }))
    // ISO weeks of the turn of the year 2026: 2026-12-31 is 2026-W53-4, 2027-01-04 is 2027-W01-1 (date-fns).
    expect(sheet.weeks.map(({ heading }) => heading)).toEqual([
      'Week 53, 28 Dec 2026 to 3 Jan 2027',
      'Week 1 of 2027, 4 to 10 Jan 2027',
      'Week 2 of 2027, 11 to 17 Jan 2027',
      'Week 3 of 2027, 18 to 24 Jan 2027',
    ])
    expect(sheet.period).toBe('30 Dec 2026 to 24 Jan 2027')
  })

  it('tells a person the place, with whom and why then, once', () => {
    const long = plannedWork({
      people: [wren, joss],
      finish: planAt('2026-11-27', '10:00'),
      pinned: { people: false, day: true },
    })
    expect(rowsOf(order({ plan: planOf({ work: [long] }) }))).toEqual([
      'Thu 26 Nov | from 08:00, goes on | Dunmere Saloon | Sill, left: welded | Bay 3 | with Joss | 6.0 h of work left. Waits for the sealer until Thu 26 Nov, 08:00. Pinned to its day.',
      'Fri 27 Nov | goes on until 10:00 | Dunmere Saloon | Sill, left: welded | Bay 3 | with Joss | Pinned to its day.',
    ])
  })

  it('writes what is a sentence already as it is', () => {
    const why = { reason: 'parts' as const, words: 'Outer skin: ordered; expected Thu 26 Nov.' }
    const [row] = rowsOf(order({ plan: planOf({ work: [plannedWork({ why })] }) }))
    expect(row).toMatch(/ left\. Outer skin: ordered; expected Thu 26 Nov\.$/)
  })

  it('says of begun work that it is begun instead of why it starts', () => {
    const [row] = rowsOf(order({ plan: planOf({ work: [plannedWork({ begun: true })] }) }))
    expect(row).toMatch(/\| 6\.0 h of work left, begun\.$/)
  })

  it("shows a person's working days without work, and no free ones", () => {
    const [week] = planSheet(order({})).weeks
    expect(week?.days).toMatchObject([{ day: 'Thu 26 Nov' }, { day: 'Fri 27 Nov', rows: [] }])
    expect(week?.days).toHaveLength(2)
  })

  it('leaves out what is past, and says how far the plan goes beyond the four weeks', () => {
    const past = plannedWork({
      target: sillGate('sealed'),
      start: planAt('2026-11-25', '08:00'),
      finish: planAt('2026-11-25', '12:00'),
    })
    const last = plannedWork({ start: planAt('2026-12-20', '08:00'), finish: planAt('2026-12-20', '09:00') })
    const beyond = plannedWork({
      start: planAt('2026-12-21', '08:00'),
      finish: planAt('2026-12-21', '09:00'),
    })
    const within = order({ plan: planOf({ work: [past, last] }) })
    expect(rowsOf(within).map((row) => row.slice(0, 10))).toEqual(['Sun 20 Dec'])
    expect(planSheet(within).further).toBe('')
    expect(planSheet(order({ plan: planOf({ work: [last, beyond] }) })).further).toBe(
      'The plan goes on to Mon 21 Dec; print it again when it comes near.',
    )
  })

  it('names in the plan of a bay a car that stands there since before', () => {
    const stay = {
      carId: dunmere,
      bayId: bay3,
      from: planAt('2026-11-20', '08:00'),
      to: planAt('2026-12-01', '16:00'),
      bookingId: null,
    }
    const given = order({
      plan: planOf({ work: [plannedWork()], stays: [stay] }),
      of: { kind: 'bay', bayId: bay3 },
      name: 'Bay 3',
    })
    expect(rowsOf(given)).toEqual([
      'Thu 26 Nov | goes on all day | Dunmere Saloon | Stands here |  |  | ',
      'Thu 26 Nov | 08:00 to 14:30 | Dunmere Saloon | Sill, left: welded |  | Wren | 6.0 h of work left. Waits for the sealer until Thu 26 Nov, 08:00.',
      'Tue 1 Dec | goes on until 16:00 | Dunmere Saloon | Stands here |  |  | ',
    ])
  })

  it('always says that the plan overrides neither support, nor fire watch, nor local codes', () => {
    const words = planSheet(order({ plan: planOf({}) })).cautions.join(' ')
    for (const each of ['hold', 'Support the shell', 'fire watch', 'Local codes'])
      expect(words).toContain(each)
  })
})
