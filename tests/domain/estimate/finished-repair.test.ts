import { describe, expect, it, test } from 'vitest'
import { finishedRepairs, type FinishedRepair } from '../../../domain/estimate/finished-repair.ts'
import type { Grade } from '../../../domain/facts/shapes.ts'
import { buildCar, onGate, repairId, type CarBuilder } from '../../support/car-builder.ts'
import { layerId, repairPlan } from '../../support/plans.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const CONTEXT = { at: Date.parse('2027-03-01T08:00:00Z'), workshop: buildWorkshop() }
const finishedOf = (car: CarBuilder): readonly FinishedRepair[] => finishedRepairs(car.car(), CONTEXT)

const grade = (car: CarBuilder, repair: string, layer: string, found: Grade | 'not seen'): CarBuilder =>
  car.add('layerGraded', {
    repairId: repairId(repair),
    layerId: layerId(repair, layer),
    grade: found,
    judgedBy: '',
    remainingMm: null,
    decision: 'replace',
  })

const seenOutside = (car: CarBuilder, repair: string, seen: Grade): CarBuilder =>
  car.add('outsideGraded', { repairId: repairId(repair), grade: seen, note: '' })

const worked = (car: CarBuilder, id: string, repair: string, hours: number): CarBuilder =>
  car.log(id, 'Joss', { kind: 'day', date: '2026-11-02', hours }, [onGate(repair, 'fabricated')])

/** Estimated at 16 h by Mara, surface outside and holed inside, 9 h spent, finished. */
function sill(): CarBuilder {
  const car = seenOutside(buildCar().repair('Sill').agree('Sill', 2), 'Sill', 'surface')
  worked(grade(grade(car, 'Sill', 'inner', 'holed'), 'Sill', 'closing', 'pitted'), 'sill-1', 'Sill', 9)
  return car.passTo('Sill', 'painted')
}

describe('a finished repair', () => {
  it('tells its estimate, its hours, and what was seen outside and found inside', () => {
    const [row] = finishedOf(sill())
    expect(row).toMatchObject({
      repairId: 'repair-sill',
      carId: 'car-dunmere',
      visitId: 'visit-first',
      estimator: 'person-mara',
      before: 16,
      assessed: 16,
      actual: 9,
      outside: 'surface',
      hidden: [{ name: 'inner panel', grade: 'holed' }],
      worstHidden: 'holed',
    })
    expect(row?.gates.fabricated).toEqual({ before: 2, assessed: 2, actual: 9, rework: 0 })
  })

  it('says when its hours were taken from earlier ones', () => {
    const said = { repairId: repairId('Sill'), repairs: 8, over: 1.2, deviation: 0.2 }
    expect(finishedOf(sill())[0]?.taken).toBe(false)
    expect(finishedOf(sill().add('hoursTaken', said))[0]?.taken).toBe(true)
  })

  it('is one plain row for a table', () => {
    const rows = finishedOf(sill())
    expect(JSON.parse(JSON.stringify(rows))).toEqual(rows)
  })

  it('counts an accepted variation at assessed and keeps the first estimate', () => {
    const car = buildCar().repair('Sill').agree('Sill', 2).passTo('Sill', 'assessed')
    car.vary('Inner sill', [{ target: onGate('Sill', 'fabricated'), hours: 5 }])
    car.decide('Inner sill', 'accepted').vary('More', [{ target: onGate('Sill', 'fabricated'), hours: 50 }])
    worked(car, 'sill-1', 'Sill', 20).passTo('Sill', 'painted')
    const [row] = finishedOf(car)
    expect([row?.before, row?.assessed, row?.actual]).toEqual([16, 21, 20])
  })

  it('counts rework and says how much of a gate was rework', () => {
    const car = sill().reopen('Sill', 'painted')
    car
      .at('2026-11-20T08:00')
      .log(
        'again',
        'Joss',
        { kind: 'span', start: '2026-11-20T08:00:00Z', end: '2026-11-20T11:00:00Z' },
        [onGate('Sill', 'painted')],
        { cause: 'workmanship' },
      )
    const [row] = finishedOf(car.passTo('Sill', 'painted'))
    expect([row?.actual, row?.gates.painted.actual, row?.gates.painted.rework]).toEqual([12, 3, 3])
  })

  it('does not count the estimate of a gate that was not needed once it was assessed', () => {
    const car = buildCar()
      .repair('Sill')
      .agree('Sill', 2)
      .passTo('Sill', 'welded')
      .notNeeded('Sill', 'painted')
    const [row] = finishedOf(worked(car, 'sill-1', 'Sill', 10))
    expect([row?.before, row?.assessed]).toEqual([16, 14])
  })

  it('knows no grade of a layer that was not seen', () => {
    const car = buildCar().repair('Sill').agree('Sill', 2)
    worked(grade(car, 'Sill', 'inner', 'not seen'), 'sill-1', 'Sill', 9).passTo('Sill', 'painted')
    const [row] = finishedOf(car)
    expect([row?.hidden[0]?.grade, row?.worstHidden, row?.outside]).toEqual([null, null, null])
  })
})

describe('finished repairs', () => {
  it('stand in the order of finishing, whatever order they were added in', () => {
    const car = buildCar().repair('Sill').agree('Sill', 2).repair('Arch').agree('Arch', 2)
    worked(worked(car, 'one', 'Sill', 4), 'two', 'Arch', 4)
    car.passTo('Arch', 'painted').passTo('Sill', 'painted')
    expect(finishedOf(car).map((row) => row.repairId)).toEqual(['repair-arch', 'repair-sill'])
    const [arch] = finishedOf(car)
    expect(arch?.finished.at).toBe(
      car.car().repairs.get(repairId('Arch'))!.gates.painted.done!.stamp.happened,
    )
  })

  const estimated = (): CarBuilder => buildCar().repair('Sill').agree('Sill', 2)
  test.each([
    ['is not finished', () => worked(estimated(), 'one', 'Sill', 4).passTo('Sill', 'welded')],
    ['has no hours', () => estimated().passTo('Sill', 'painted')],
    ['has no estimate', () => worked(buildCar().repair('Sill'), 'one', 'Sill', 4).passTo('Sill', 'painted')],
    [
      'was retired',
      () => sill().add('repairRetired', { repairId: repairId('Sill'), reason: 'not needed after all' }),
    ],
    [
      'was closed as found',
      () =>
        worked(estimated(), 'one', 'Sill', 4)
          .passTo('Sill', 'assessed')
          .add('closedAsFound', {
            repairId: repairId('Sill'),
            variationId: null,
            attachments: [],
            protection: 'wax',
            answer: 'leave it',
            cautionShown: true,
          }),
    ],
  ])('leave out one that %s', (_, car) => {
    expect(finishedOf(car())).toEqual([])
  })

  it('keep one that a warranty visit takes up again as it was, without the hours of the new visit', () => {
    const car = sill().at('2027-01-10T08:00').visit('warranty', { kind: 'warranty' })
    car.reopen('Sill', 'painted')
    worked(car, 'return', 'Sill', 6)
    const [row] = finishedOf(car)
    expect([row?.visitId, row?.before, row?.actual]).toEqual(['visit-first', 16, 9])
  })

  it('count both visits of one that was finished in the second', () => {
    const car = buildCar().repair('Sill').agree('Sill', 2)
    worked(car, 'one', 'Sill', 6).passTo('Sill', 'welded').at('2027-01-10T08:00').visit('second')
    const [row] = finishedOf(worked(car, 'two', 'Sill', 3).passTo('Sill', 'painted'))
    expect([row?.visitId, row?.before, row?.actual]).toEqual(['visit-second', 16, 9])
  })

  it('share the first estimate of one that was split, so that neither looks too short or too long', () => {
    const car = sill()
    expect(finishedOf(car)).toHaveLength(1)
    const split = buildCar().repair('Sill').agree('Sill', 4)
    split.add('repairSplit', {
      repairId: repairId('Sill'),
      newRepairId: repairId('Sill end'),
      plan: repairPlan('Sill end'),
      share: 0.5,
      moves: [{ gate: 'fabricated', hours: 1 }],
      reason: 'two cavities',
    })
    worked(worked(split, 'one', 'Sill', 20), 'two', 'Sill end', 2)
    split.passTo('Sill', 'painted').passTo('Sill end', 'painted')
    expect(finishedOf(split).map(({ before }) => before)).toEqual([31, 1])
  })
})
