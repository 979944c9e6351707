import { describe, expect, it } from 'vitest'
import { repairToEstimate } from '../../../domain/estimate/repair-to-estimate.ts'
import type { CarBuilder } from '../../support/car-builder.ts'
import { buildCar, onGate, repairId } from '../../support/car-builder.ts'
import { layerId } from '../../support/plans.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const CONTEXT = { at: Date.parse('2027-03-01T08:00:00Z'), workshop: buildWorkshop() }

const stands = (builder: CarBuilder) => {
  const car = builder.car()
  return repairToEstimate(car, car.repairs.get(repairId('Sill'))!, 'sills', CONTEXT)
}

const worked = (car: CarBuilder, id: string, hours: number): CarBuilder =>
  car.log(id, 'Joss', { kind: 'day', date: '2026-11-02', hours }, [onGate('Sill', 'fabricated')])

describe('a repair as it is to be estimated', () => {
  it('takes what its plan expects where it has no estimate line', () => {
    // Each gate of the plan is 1, 2 or 3 hours.
    const { gates, hiddenLayers, outside } = stands(buildCar().repair('Sill'))
    expect(gates.welded).toMatchObject({
      before: 2,
      assessed: 2,
      points: { shortest: 1, likely: 2, longest: 3 },
    })
    expect([hiddenLayers, outside]).toEqual([1, null])
  })

  it('adds accepted variations to what is estimated now and keeps the first estimate', () => {
    const car = buildCar().repair('Sill').agree('Sill', 3)
    car.vary('Inner sill', [{ target: onGate('Sill', 'welded'), hours: 4 }]).decide('Inner sill', 'accepted')
    expect(stands(car).gates.welded).toMatchObject({ before: 3, assessed: 7 })
  })

  it('knows the worst hidden grade from assessed on', () => {
    const car = buildCar().repair('Sill').agree('Sill', 3).passTo('Sill', 'opened')
    car.add('layerGraded', {
      repairId: repairId('Sill'),
      layerId: layerId('Sill', 'inner'),
      grade: 'gone',
      judgedBy: '',
      remainingMm: null,
      decision: 'replace',
    })
    expect(stands(car).worstHidden).toBeNull()
    expect(stands(car.passTo('Sill', 'assessed')).worstHidden).toBe('gone')
  })

  it('counts hours of its visits, and none of a later warranty visit', () => {
    const car = worked(buildCar().repair('Sill').agree('Sill', 3), 'one', 5).passTo('Sill', 'painted')
    car.at('2027-01-10T08:00').visit('warranty', { kind: 'warranty' }).reopen('Sill', 'painted')
    expect(stands(worked(car, 'two', 8)).gates.fabricated).toMatchObject({ spent: 5, isDone: true })
  })

  it('expects nothing of a gate that is not needed', () => {
    const car = buildCar()
      .repair('Sill')
      .agree('Sill', 3)
      .passTo('Sill', 'welded')
      .notNeeded('Sill', 'painted')
    expect(stands(car).gates.painted).toMatchObject({ before: 3, assessed: 0, isDone: true })
  })
})
