import { describe, expect, it } from 'vitest'
import { authorisedAmounts } from '../../../domain/value/authorised-amounts.ts'
import { plannedDays, type PlannedAmounts } from '../../../domain/value/planned-days.ts'
import { earnedOfPlannedByDay } from '../../../domain/value/value-days.ts'
import { buildCar, type CarBuilder, onGate, repairId, visitId } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const context = { at: Date.parse('2026-12-02T10:40:00Z'), workshop }
const opened = onGate('Boot floor', 'opened')

/** 8 h on the first gate, half of it planned on Monday 30 Nov 2026 and half on Tuesday. */
const agreed = () => buildCar().repair('Boot floor').estimate(opened, 8)
const twoDays = (from: string, to: string) => [
  { date: from, share: 0.5 },
  { date: to, share: 0.5 },
]
const [line] = authorisedAmounts(agreed().car())
const planned: PlannedAmounts = new Map([[line!.id, twoDays('2026-11-30', '2026-12-01')]])

const daysOf = (builder: CarBuilder, of: PlannedAmounts = planned) => {
  const car = builder.car()
  return plannedDays(car, car.visits.get(visitId('first'))!, of, context).map(({ date, hours }) => [
    date,
    hours,
  ])
}
/** The variation that was accepted last, planned on two further days. */
const withVariation = (builder: CarBuilder): PlannedAmounts =>
  new Map([...planned, [authorisedAmounts(builder.car()).at(-1)!.id, twoDays('2026-12-03', '2026-12-04')]])
const vary = (hours: number) =>
  agreed()
    .vary('Second skin', [{ target: opened, hours }])
    .decide('Second skin', 'accepted')

describe('planned value of authorised amounts', () => {
  it('lies on the days of the plan of each', () => {
    expect(daysOf(agreed())).toEqual([
      ['2026-11-30', 4],
      ['2026-12-01', 4],
    ])
  })

  it('of a variation lies on the days of its own plan, and moves nothing that was planned before', () => {
    const varied = vary(3)
    expect(daysOf(varied, withVariation(varied))).toEqual([
      ['2026-11-30', 4],
      ['2026-12-01', 4],
      ['2026-12-03', 1.5],
      ['2026-12-04', 1.5],
    ])
  })

  it('of less work comes off the days of its own plan', () => {
    const varied = vary(-3)
    expect(daysOf(varied, withVariation(varied)).slice(2)).toEqual([
      ['2026-12-03', -1.5],
      ['2026-12-04', -1.5],
    ])
  })

  it('of less work that no plan knows comes off all days of its gate alike', () => {
    expect(daysOf(vary(-2))).toEqual([
      ['2026-11-30', 3],
      ['2026-12-01', 3],
    ])
  })

  it('is none for more work that no plan knows', () => {
    expect(daysOf(vary(3))).toEqual(daysOf(agreed()))
    expect(daysOf(agreed(), new Map())).toEqual([])
  })

  it('waits for the payer with the hours', () => {
    const asked = agreed().vary('Second skin', [{ target: opened, hours: 3 }])
    expect(authorisedAmounts(asked.car()).map(({ hours }) => hours)).toEqual([8])
  })

  it('goes when its hours are given back', () => {
    expect(daysOf(agreed().notNeeded('Boot floor', 'opened'))).toEqual([])
    const retired = agreed()
      .log('a', 'Joss', { kind: 'day', date: '2026-11-30', hours: 2 }, [opened])
      .add('repairRetired', { repairId: repairId('Boot floor'), reason: 'entered twice' })
    // 2 h of 8 h were spent and stay authorised.
    expect(daysOf(retired)).toEqual([
      ['2026-11-30', 1],
      ['2026-12-01', 1],
    ])
  })
})

describe('what is earned of planned work', () => {
  it('is all that was planned of a gate that is done, on the day of its passing, and nothing before', () => {
    const earnedOf = (builder: CarBuilder) => {
      const car = builder.car()
      const visit = car.visits.get(visitId('first'))!
      return earnedOfPlannedByDay(car, visit, plannedDays(car, visit, planned, context), context)
    }
    const varied = vary(3)
    expect(earnedOf(varied)).toEqual([])
    // The 3 h that no plan knows have no part in the comparison.
    expect(earnedOf(varied.at('2026-12-02T09:00').pass('Boot floor', 'opened'))).toEqual([
      { date: '2026-12-02', hours: 8 },
    ])
  })
})
