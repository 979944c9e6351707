import { describe, expect, it } from 'vitest'
import { earnedValue } from '../../../domain/value/earned-value.ts'
import { valueWeeks } from '../../../domain/value/value-weeks.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()

/**
 * Own series, reckoned by hand with Lipke's formulas (2003): 100 h planned over five weeks, 10 20 30 25 15, from Mon
 * 2 Nov 2026 (week 45). In truth 5 15 25 15 10 15 15 h are earned in seven weeks, and 140 h spent, 20 a week.
 */
const FRIDAYS = [
  '2026-11-06',
  '2026-11-13',
  '2026-11-20',
  '2026-11-27',
  '2026-12-04',
  '2026-12-11',
  '2026-12-18',
]
const onFridays = (hours: readonly number[]) =>
  hours.map((each, index) => ({ date: FRIDAYS[index]!, hours: each }))
const job = {
  planned: onFridays([10, 20, 30, 25, 15]),
  earned: onFridays([5, 15, 25, 15, 10, 15, 15]),
  earnedOfPlanned: onFridays([5, 15, 25, 15, 10, 15, 15]),
  spent: onFridays([20, 20, 20, 20, 20, 20, 20]),
  workshop,
}
const weeksAt = (at: string) => valueWeeks({ ...job, at: Date.parse(`${at}:00Z`) })

describe('earned schedule over the weeks of a late job', () => {
  const weeks = weeksAt('2026-12-21T07:00')

  it('is that reckoned by hand for every week', () => {
    // EV 5: 0.5. EV 20: 1 + 10/20. EV 45: 2 + 15/30. EV 60: 3. EV 70: 3 + 10/25. EV 85: 4. EV 100: 5.
    const expected = [0.5, 1.5, 2.5, 3, 3.4, 4, 5]
    for (const [index, es] of expected.entries()) {
      const { schedule } = weeks[index]!
      const actual = index + 1
      expect(schedule!.earnedSchedule).toBeCloseTo(es, 9)
      expect(schedule!.scheduleVariance).toBeCloseTo(es - actual, 9)
      expect(schedule!.schedulePerformanceIndex).toBeCloseTo(es / actual, 9)
      expect(schedule!.estimateAtCompletion).toBeCloseTo((5 * actual) / es, 9)
    }
  })

  it('ends with the index by hours back at 1 and the index by time at 5 weeks of 7', () => {
    const last = weeks[6]!
    const value = earnedValue({
      budgetAtCompletion: 100,
      plannedValue: last.planned,
      earnedValue: last.earned!,
      actualCost: last.spent!,
    })
    expect(value.schedulePerformanceIndex).toBe(1)
    expect(last.schedule!.schedulePerformanceIndex).toBeCloseTo(5 / 7, 9)
  })

  it('stays as it was when the job has long been finished', () => {
    const later = weeksAt('2027-02-01T10:00')
    expect(later.at(-1)!.schedule).toEqual(weeks[6]!.schedule)
  })
})

describe('the curves', () => {
  it('add up to the end of each week; weeks to come are planned only', () => {
    expect(
      weeksAt('2026-11-17T10:00').map(({ week, planned, earned, spent }) => [week, planned, earned, spent]),
    ).toEqual([
      ['2026-W45', 10, 5, 20],
      ['2026-W46', 30, 20, 40],
      ['2026-W47', 60, 20, 40],
      ['2026-W48', 85, null, null],
      ['2026-W49', 100, null, null],
    ])
  })

  it('count a week begun by the share of its working hours gone by', () => {
    // Tue 17 Nov, 12:30: 8 h of Monday and 4.5 h of Tuesday, of 40 h.
    const { schedule } = weeksAt('2026-11-17T12:30')[2]!
    expect(schedule!.scheduleVariance).toBeCloseTo(1.5 - (2 + 12.5 / 40), 9)
  })

  it('have no schedule before the plan starts, nor without a plan', () => {
    const early = valueWeeks({
      ...job,
      spent: [{ date: '2026-10-30', hours: 3 }],
      at: Date.parse('2026-11-03T10:00:00Z'),
    })
    expect(early[0]).toEqual({
      week: '2026-W44',
      planned: 0,
      earned: 0,
      earnedOfPlanned: 0,
      spent: 3,
      schedule: null,
    })
    const unplanned = valueWeeks({ ...job, planned: [], at: Date.parse('2026-11-07T10:00:00Z') })
    expect(unplanned.map(({ schedule }) => schedule)).toEqual([null])
  })
})
