import { describe, expect, it } from 'vitest'
import type { CarState } from '../../../domain/car.ts'
import { GATES } from '../../../domain/gates.ts'
import { authorisedAmounts } from '../../../domain/value/authorised-amounts.ts'
import type { PlannedAmounts } from '../../../domain/value/planned-days.ts'
import { visitCurves } from '../../../domain/views/variance-curves.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import { buildCar, onGate, visitId } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()

/** The Fridays of weeks 45 to 52 of 2026; week 45 begins on Mon 2 Nov. */
const FRIDAYS = [
  '2026-11-06',
  '2026-11-13',
  '2026-11-20',
  '2026-11-27',
  '2026-12-04',
  '2026-12-11',
  '2026-12-18',
  '2026-12-25',
]

/**
 * Eight gates of 10 h, two planned in each of four weeks; in truth the first three are passed one a week and the others in
 * week 52, four weeks late. 12 h go into each.
 */
function lateCar(until: number): CarState {
  const car = buildCar().repair('Boot floor').agree('Boot floor', 10)
  for (const [index, gate] of GATES.slice(0, until).entries()) {
    const friday = FRIDAYS[Math.min(index < 3 ? index : 7, 7)]!
    car
      .at(`${friday}T${10 + index}:00`)
      .log(gate, 'Joss', { kind: 'day', date: friday, hours: 12 }, [onGate('Boot floor', gate)])
      .pass('Boot floor', gate)
  }
  return car.car()
}

/** Two gates on the Friday of each of the first four weeks. */
const planned = (car: CarState): PlannedAmounts =>
  new Map(
    authorisedAmounts(car).map(({ id, target }) => {
      const index = target.kind === 'gate' ? GATES.indexOf(target.gate) : 0
      return [id, [{ date: FRIDAYS[Math.floor(index / 2)]!, share: 1 }]] as const
    }),
  )

const curvesOf = (car: CarState, at: string) =>
  visitCurves(
    car,
    car.visits.get(visitId('first'))!,
    planned(car),
    createViewContext({ now: Date.parse(`${at}:00Z`), workshop, nameOf }),
  )

describe('the weeks of a visit that runs late', () => {
  it('are its planned, earned and spent hours to the end of each, and to come only what is planned', () => {
    // Mon 23 Nov, the first of week 48: three gates of 10 h are earned, 36 h spent; planned are 20 h a week.
    const { weeks, total } = curvesOf(lateCar(3), '2026-11-23T08:00')
    expect(weeks.map(({ words, planned: pv, earned, spent }) => [words, pv, earned, spent])).toEqual([
      ['week 45', 20, 10, 12],
      ['week 46', 40, 20, 24],
      ['week 47', 60, 30, 36],
      ['week 48', 80, 30, 36],
    ])
    // PV is that up to today's end: SV = 30 - 60, SPI = 30 / 60.
    expect(total).toMatchObject({ planned: 60, scheduleVariance: -30, scheduleIndex: 0.5, variance: -6 })
    expect(total.expected).toBeCloseTo(36 + 50, 9)
  })

  it('have the earned schedule of their plan, reckoned by hand with Lipke’s formulas (2003)', () => {
    // PV 20 40 60 80. EV 30 after three weeks: C = 1, ES = 1 + (30 - 20) / 20 = 1.5; SV(t) -1.5, SPI(t) 0.5, IEAC(t) 4 / 0.5.
    const { weeks, schedule } = curvesOf(lateCar(3), '2026-11-23T00:00')
    const expected = {
      plannedDuration: 4,
      earnedSchedule: 1.5,
      scheduleVariance: -1.5,
      schedulePerformanceIndex: 0.5,
      estimateAtCompletion: 8,
    }
    expect(weeks[2]!.schedule).toEqual(expected)
    expect(schedule).toEqual(expected)
    expect(weeks.map((week) => week.schedule?.earnedSchedule)).toEqual([0.5, 1, 1.5, 1.5])
  })

  it('end with the index by hours back at 1 and the index by time at 4 weeks of 8, and stay there', () => {
    const { total, schedule, weeks } = curvesOf(lateCar(8), '2027-02-01T10:00')
    expect(total).toMatchObject({ scheduleVariance: 0, scheduleIndex: 1, atCompletion: -16 })
    expect(schedule).toMatchObject({ schedulePerformanceIndex: 0.5, scheduleVariance: -4 })
    expect(weeks.find(({ words }) => words === 'week 52 of 2026')?.schedule).toEqual(schedule)
  })

  it('tell what was earned of planned work apart from what no plan had', () => {
    const car = lateCar(3)
    const [first] = authorisedAmounts(car)
    const withoutFirst = new Map([...planned(car)].filter(([id]) => id !== first!.id))
    const visit = car.visits.get(visitId('first'))!
    const context = createViewContext({ now: Date.parse('2026-11-23T08:00:00Z'), workshop, nameOf })
    const { weeks } = visitCurves(car, visit, withoutFirst, context)
    expect(weeks.map(({ earned, earnedOfPlanned }) => [earned, earnedOfPlanned]).slice(0, 3)).toEqual([
      [10, 0],
      [20, 10],
      [30, 20],
    ])
  })
})
