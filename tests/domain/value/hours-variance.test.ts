import { describe, expect, it } from 'vitest'
import { hoursIndex, hoursVariance, repairHours, targetHours } from '../../../domain/value/hours.ts'
import { buildCar, onGate, repairId, visitId } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const at = Date.parse('2026-11-25T10:40:00Z')
const context = { at, workshop }
const first = visitId('first')

/** Monday to Friday of week 48; 25 Nov 2026 is a Wednesday. */
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })

describe('variance', () => {
  it('is earned less spent, and the index earned by spent', () => {
    // CV = EV - AC and CPI = EV / AC, with a forecasting poster's example (BAC 100, PV 50, EV 40, AC 45): CPI .889.
    expect(hoursVariance({ earned: 40, spent: 45 })).toBe(-5)
    expect(hoursIndex({ earned: 40, spent: 45 })).toBeCloseTo(0.889, 3)
  })

  it('has no index where nothing is spent', () => {
    expect(hoursIndex({ earned: 40, spent: 0 })).toBeNull()
  })

  it('of a repair is the sum of its gates', () => {
    const car = buildCar()
      .repair('Boot floor')
      .agree('Boot floor', 2)
      .passTo('Boot floor', 'assessed')
      .log('a', 'Joss', day('2026-11-23', 3), [onGate('Boot floor', 'opened')])
      .log('b', 'Joss', day('2026-11-24', 0.5), [onGate('Boot floor', 'assessed')])
    const variances = (['opened', 'assessed', 'fabricated'] as const).map((gate) =>
      hoursVariance(targetHours(car.car(), first, onGate('Boot floor', gate), context)),
    )
    expect(variances).toEqual([-1, 1.5, 0])
    expect(hoursVariance(repairHours(car.car(), first, repairId('Boot floor'), context))).toBe(0.5)
  })
})
