import { describe, expect, it } from 'vitest'
import { planShares } from '../../../domain/value/planned-value.ts'
import { sumByWeek } from '../../../domain/value/week-hours.ts'
import { onGate, personId } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

/** Monday to Friday, 08:00 to 12:30 and 13:00 to 16:30: 8 h a day. */
const workshop = buildWorkshop((add) =>
  add('personChanged', {
    personId: personId('Wren'),
    roles: ['technician'],
    skills: ['metalwork'],
    week: null,
    absences: [{ from: '2026-11-30', to: '2026-11-30' }],
    active: true,
  }),
)
const opened = onGate('Boot floor', 'opened')
const piece = (start: string, finish: string, people: readonly string[] = ['Joss']) => ({
  target: opened,
  start: Date.parse(`${start}:00Z`),
  finish: Date.parse(`${finish}:00Z`),
  people: people.map(personId),
})
/** Of 12 h authorised, as their planned value is reckoned. */
const hoursOf = (...pieces: ReturnType<typeof piece>[]) =>
  [...planShares(pieces, workshop).values()].flat().map(({ date, share }) => ({ date, hours: 12 * share }))
const byDay = (...pieces: ReturnType<typeof piece>[]) =>
  hoursOf(...pieces).map(({ date, hours }) => [date, hours] as const)
const closeTo = (hours: number) => expect.closeTo(hours, 12) as number

describe('planned value', () => {
  it('spreads hours over the working hours between start and finish', () => {
    // Thu 26 Nov 2026 12:00 to Mon 30 Nov 12:30: 4 h on Thursday, 8 h on Friday, 4.5 h on Monday; 16.5 h in all.
    expect(byDay(piece('2026-11-26T12:00', '2026-11-30T12:30'))).toEqual([
      ['2026-11-26', closeTo((12 * 4) / 16.5)],
      ['2026-11-27', closeTo((12 * 8) / 16.5)],
      ['2026-11-30', closeTo((12 * 4.5) / 16.5)],
    ])
  })

  it('counts the hours of all its people, each by their own calendar', () => {
    // Joss works on both days, Wren is off on Monday: 16 h on Friday, 8 h on Monday.
    expect(byDay(piece('2026-11-27T08:00', '2026-11-30T16:30', ['Joss', 'Wren']))).toEqual([
      ['2026-11-27', 8],
      ['2026-11-30', 4],
    ])
  })

  it('goes by the workshop where the plan names nobody', () => {
    expect(byDay(piece('2026-11-27T08:00', '2026-11-30T16:30', []))).toEqual([
      ['2026-11-27', 6],
      ['2026-11-30', 6],
    ])
  })

  it('falls on the day of the finish where nobody works in between', () => {
    expect(byDay(piece('2026-11-28T09:00', '2026-11-28T11:00'))).toEqual([['2026-11-28', 12]])
  })

  it('adds up by ISO week, weeks without work between them too', () => {
    // Week 48 holds Fri 27 Nov, week 50 Mon 7 Dec; checked with date-fns' ISO weeks in the tests of the calendar.
    const pieces = [
      piece('2026-11-27T08:00', '2026-11-27T16:30'),
      piece('2026-12-07T08:00', '2026-12-07T12:30'),
    ]
    expect(sumByWeek(hoursOf(...pieces))).toEqual([
      { week: '2026-W48', monday: '2026-11-23', hours: closeTo((12 * 8) / 12.5) },
      { week: '2026-W49', monday: '2026-11-30', hours: 0 },
      { week: '2026-W50', monday: '2026-12-07', hours: closeTo((12 * 4.5) / 12.5) },
    ])
  })

  it('has nothing where nothing is planned', () => {
    expect(byDay()).toEqual([])
  })
})
