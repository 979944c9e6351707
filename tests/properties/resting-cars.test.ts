import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { CarState } from '../../domain/car.ts'
import { attachmentIdSchema, carIdSchema } from '../../domain/ids.ts'
import { carLine } from '../../domain/views/car-line.ts'
import { daySheetView } from '../../domain/views/day-sheet-view.ts'
import { ownerDecisionsView } from '../../domain/views/owner-decisions-view.ts'
import { restingCar, restingLine } from '../../domain/views/resting-car.ts'
import { shopFloorView } from '../../domain/views/shop-floor-view.ts'
import { typeUseView } from '../../domain/views/type-use-view.ts'
import { createViewContext } from '../../domain/views/view-context.ts'
import { buildCar, personId, repairId } from '../support/car-builder.ts'
import { repairPlan } from '../support/plans.ts'
import { carSteps, REPAIRS, TASK } from '../support/random-cars.ts'
import { buildWorkshop, nameOf } from '../support/workshop-builder.ts'

const DAY_MS = 86_400_000
const workshop = buildWorkshop()

/** Three in four were delivered at the end of their story; a photo came on one of thirty days. */
const cars = fc
  .tuple(fc.integer({ min: 1, max: 9_999 }), fc.array(carSteps, { maxLength: 12 }), fc.nat(3), fc.nat(30))
  .map(([id, story, delivered, photoDay]) => {
    const builder = buildCar({ carId: carIdSchema.parse(`car-no-${id}`), shellNumber: `S-${id}` })
    for (const name of REPAIRS)
      builder.add('repairAdded', {
        repairId: repairId(name),
        type: null,
        plan: repairPlan(name),
        payer: 'owner',
      })
    builder.task(TASK)
    for (const [number, step] of story.entries()) step(builder, number)
    builder.add('photoAttached', {
      attachmentId: attachmentIdSchema.parse(`photo-${id}`),
      sha256: 'a'.repeat(64),
      taken: new Date(Date.parse('2026-11-10T12:00:00Z') + photoDay * DAY_MS).toISOString(),
      caption: '',
      serves: [{ what: 'car' }],
    })
    const visitId = builder.car().currentVisit
    if (delivered > 0 && visitId !== null)
      builder.add('visitStatusSet', { visitId, status: 'delivered', reason: '' })
    return builder.car()
  })

const moments = fc
  .integer({ min: 0, max: 40 })
  .map((day) => Date.parse('2026-11-20T09:00:00Z') + day * DAY_MS)

/** What is stored of it, as it is read again. */
const stored = (car: CarState) => {
  const resting = restingCar(car)
  return resting && (JSON.parse(JSON.stringify(resting)) as typeof resting)
}

describe('A car that rests', () => {
  test('has the same line from what is stored of it as from its facts, whenever it is looked at', () => {
    let rested = 0
    fc.assert(
      fc.property(cars, moments, (car, now) => {
        const resting = stored(car)
        if (resting === null) return
        rested += 1
        const context = createViewContext({ now, workshop, nameOf })
        expect(restingLine(resting, context)).toEqual(carLine(car, context))
      }),
      { numRuns: 150 },
    )
    expect(rested).toBeGreaterThan(30)
  })

  test('is missing in no view of today, of decisions or of a type when it is left out', () => {
    let leftOut = 0
    fc.assert(
      fc.property(fc.uniqueArray(cars, { maxLength: 5, selector: ({ id }) => id }), moments, (all, now) => {
        const input = { now, workshop, nameOf }
        const since = (days: number) =>
          all.filter((car) => (restingCar(car)?.until ?? Number.MAX_SAFE_INTEGER) >= now - days * DAY_MS)
        const awake = all.filter((car) => restingCar(car) === null)
        leftOut += all.length - since(2).length
        const floorOf = (of: readonly CarState[]) =>
          shopFloorView({ ...input, cars: of, by: null, plan: null })
        expect(floorOf(since(2))).toEqual(floorOf(all))
        for (const person of ['Joss', 'Wren']) {
          const sheetOf = (of: readonly CarState[]) =>
            daySheetView({ ...input, cars: of, personId: personId(person), plan: null })
          expect(sheetOf(since(8))).toEqual(sheetOf(all))
        }
        const answered = all.filter((car) => (restingCar(car)?.answered.length ?? 1) > 0)
        expect(ownerDecisionsView({ ...input, cars: answered })).toEqual(
          ownerDecisionsView({ ...input, cars: all }),
        )
        for (const type of workshop.types.values())
          expect(typeUseView({ cars: awake, type })).toEqual(typeUseView({ cars: all, type }))
      }),
      { numRuns: 60 },
    )
    expect(leftOut).toBeGreaterThan(10)
  })
})
