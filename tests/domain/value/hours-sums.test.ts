import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { CarState } from '../../../domain/car.ts'
import type { WorkTarget } from '../../../domain/facts/shapes.ts'
import { GATES } from '../../../domain/gates.ts'
import { carIdSchema, typeIdSchema } from '../../../domain/ids.ts'
import { entryHours } from '../../../domain/value/entry-hours.ts'
import { addHours, carHours, repairHours, visitFigures } from '../../../domain/value/hours.ts'
import { createEstimateHistory } from '../../../domain/estimate/estimate-history.ts'
import { hoursSheetView } from '../../../domain/views/hours-sheet-view.ts'
import { varianceView } from '../../../domain/views/variance-view.ts'
import type { HoursPair } from '../../../domain/views/shared-views.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  personId,
  repairId,
  taskId,
  variationId,
} from '../../support/car-builder.ts'
import { repairPlan } from '../../support/plans.ts'
import { varianceSums } from '../../support/variance-sums.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')
const context = { at: now, workshop }
const history = createEstimateHistory([])

const REPAIRS = ['Boot floor', 'Scuttle', 'Sill, left'] as const
const TASK = 'Cavity wax'

const repairs = fc.constantFrom(...REPAIRS)
const gates = fc.constantFrom(...GATES)
const targets: fc.Arbitrary<WorkTarget> = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(repairs, gates).map(([repair, gate]) => onGate(repair, gate)) },
  { weight: 1, arbitrary: fc.constant(onTask(TASK)) },
)
const hours = fc.integer({ min: 1, max: 40 }).map((quarters) => quarters / 4)

/** One step in the life of a car; whether a workshop would do it just then plays no part in the sums. */
const steps: fc.Arbitrary<(builder: CarBuilder, number: number) => unknown> = fc.oneof(
  fc.tuple(targets, hours, fc.boolean()).map(
    ([target, agreed, accepted]) =>
      (car: CarBuilder) =>
        car.estimate(target, agreed, { accepted }),
  ),
  fc.tuple(repairs, gates).map(
    ([repair, gate]) =>
      (car: CarBuilder) =>
        car.pass(repair, gate),
  ),
  fc.tuple(repairs, gates).map(
    ([repair, gate]) =>
      (car: CarBuilder) =>
        car.notNeeded(repair, gate),
  ),
  fc.tuple(repairs, gates).map(
    ([repair, gate]) =>
      (car: CarBuilder) =>
        car.reopen(repair, gate),
  ),
  fc.tuple(fc.uniqueArray(targets, { minLength: 1, maxLength: 4, selector: JSON.stringify }), hours).map(
    ([on, spent]) =>
      (car: CarBuilder, number: number) =>
        car.log(`e${number}`, 'Joss', { kind: 'day', date: '2026-11-23', hours: spent }, on),
  ),
  targets.map(
    (target) => (car: CarBuilder, number: number) =>
      car.clock(`c${number}`, 'Wren', '2026-11-25T08:00', [target]),
  ),
  fc
    .tuple(targets, hours, fc.constantFrom('accepted' as const, 'declined' as const, null))
    .map(([target, more, answer]) => (car: CarBuilder, number: number) => {
      car.vary(`v${number}`, [{ target, hours: more }])
      if (answer) car.decide(`v${number}`, answer)
      if (answer === 'declined' && number % 2 === 0)
        car.add('declinedSettled', {
          variationId: variationId(`v${number}`),
          choice: 'workshop pays',
          reason: 'our mistake',
        })
    }),
  repairs.map(
    (repair) => (car: CarBuilder) =>
      car.add('closedAsFound', {
        repairId: repairId(repair),
        variationId: null,
        attachments: [],
        protection: 'wax',
        answer: 'leave it',
        cautionShown: false,
      }),
  ),
  repairs.map(
    (repair) => (car: CarBuilder) =>
      car.add('repairRetired', { repairId: repairId(repair), reason: 'entered twice' }),
  ),
  fc.tuple(repairs, gates, hours).map(
    ([repair, gate, moved]) =>
      (car: CarBuilder, number: number) =>
        car.add('repairSplit', {
          repairId: repairId(repair),
          newRepairId: repairId(`Part ${number}`),
          plan: repairPlan(`Part ${number}`),
          share: 0.5,
          moves: [{ gate, hours: moved }],
          reason: 'another job',
        }),
  ),
  fc.constant((car: CarBuilder) =>
    car.add('taskSigned', { taskId: taskId(TASK), did: [personId('Ines')], note: '' }),
  ),
  fc.constant((car: CarBuilder, number: number) => car.visit(`warranty-${number}`, { kind: 'warranty' })),
)

const cars: fc.Arbitrary<CarState> = fc
  .tuple(fc.integer({ min: 1, max: 999_999 }), fc.array(steps, { maxLength: 25 }))
  .map(([id, story]) => {
    const builder = buildCar({ carId: carIdSchema.parse(`car-no-${id}`) })
    for (const [index, name] of REPAIRS.entries())
      builder.add('repairAdded', {
        repairId: repairId(name),
        type: index === 0 ? null : { typeId: typeIdSchema.parse(`type-${name.length}`), version: 1 },
        plan: repairPlan(name),
        payer: 'owner',
      })
    builder.task(TASK)
    for (const [number, step] of story.entries()) step(builder, number)
    return builder.car()
  })

const expectSame = (actual: HoursPair, expected: HoursPair): void => {
  for (const [figure, value] of Object.entries(expected))
    expect(actual[figure as keyof HoursPair], figure).toBeCloseTo(value, 6)
}

const visitsOf = (car: CarState) => [...car.visits.keys()]

describe('hours over random cars', () => {
  it('add up to the same in every grouping', () => {
    fc.assert(
      fc.property(fc.array(cars, { minLength: 1, maxLength: 3 }), (all) => {
        const whole = addHours(all.flatMap((car) => visitsOf(car).map((id) => carHours(car, id, context))))
        const view = varianceView({ sums: varianceSums(all, context), workshop, nameOf, by: null })
        for (const lines of [view.byCar, view.byType, view.byGate, view.byZone, view.byMonth]) {
          expectSame(addHours(lines.map((line) => line.hours)), whole)
          const variance = lines.reduce((sum, line) => sum + line.variance, 0)
          expect(variance).toBeCloseTo(whole.earned - whole.spent, 6)
        }
        const rework = view.rework.reduce((sum, line) => sum + line.hours, 0)
        expect(rework).toBeCloseTo(whole.rework, 6)
      }),
      { numRuns: 150 },
    )
  })

  it('of a car are those of its payers, and of its repairs and tasks; of a repair those of its gates; of a gate its entries', () => {
    fc.assert(
      fc.property(cars, (car) => {
        const { total, payers, works } = hoursSheetView({ car, now, workshop, nameOf, history })
        expectSame(total.hours, carHours(car, car.currentVisit, context))
        for (const parts of [payers, works]) {
          expectSame(addHours(parts.map((part) => part.hours)), total.hours)
          expect(parts.reduce((sum, part) => sum + part.expected, 0)).toBeCloseTo(total.expected, 6)
        }
        for (const { repairId: id, gates: own, hours: whole } of works) {
          if (id === null) continue
          expectSame(addHours(own.map((gate) => gate.hours)), whole)
          expectSame(repairHours(car, car.currentVisit, id, context), whole)
          for (const gate of own)
            expect(gate.entries.reduce((sum, entry) => sum + entry.hours, 0)).toBeCloseTo(gate.hours.spent, 6)
        }
      }),
      { numRuns: 60 },
    )
  })

  it('spent are all hours logged, whoever shares them', () => {
    fc.assert(
      fc.property(cars, (car) => {
        const logged = [...car.entries.values()].reduce((sum, entry) => sum + entryHours(entry, context), 0)
        const spent = addHours(visitsOf(car).map((id) => carHours(car, id, context))).spent
        expect(spent).toBeCloseTo(logged, 6)
      }),
      { numRuns: 150 },
    )
  })

  it('lose nothing that was agreed: what is not authorised any more is given back', () => {
    fc.assert(
      fc.property(cars, (car) => {
        for (const visit of car.visits.values()) {
          const lines = [...visit.lines.values()].filter(({ accepted }) => accepted !== null)
          const variations = [...car.variations.values()].filter(
            ({ visitId: id, status }) =>
              id === visit.id && (status === 'accepted' || status === 'workshop pays'),
          )
          const agreed =
            lines.reduce((sum, line) => sum + line.agreed + line.moved, 0) +
            variations.flatMap((each) => each.lines).reduce((sum, line) => sum + line.hours, 0)
          const { authorised, givenBack } = carHours(car, visit.id, context)
          expect(authorised + givenBack).toBeCloseTo(agreed, 6)
        }
      }),
      { numRuns: 150 },
    )
  })

  it('earned equal those authorised once nothing is open', () => {
    fc.assert(
      fc.property(cars, (car) => {
        for (const visit of visitsOf(car)) {
          const figures = [...visitFigures(car, visit, context).values()]
          const finished = figures.filter(({ standing }) => standing !== 'open').map((each) => each.hours)
          const { earned, authorised } = addHours(finished)
          expect(earned).toBeCloseTo(authorised, 6)
          expect(carHours(car, visit, context).earned).toBeCloseTo(earned, 6)
        }
      }),
      { numRuns: 150 },
    )
  })

  it('of a visit stand when the next one works on', () => {
    fc.assert(
      fc.property(fc.array(steps, { maxLength: 20 }), fc.array(steps, { maxLength: 10 }), (before, after) => {
        const builder = buildCar()
        for (const name of REPAIRS) builder.repair(name)
        builder.task(TASK)
        for (const [number, step] of before.entries()) step(builder, number)
        const old = builder.car().currentVisit
        const figures = [...visitFigures(builder.car(), old, context)]
        builder.visit('later', { kind: 'warranty' })
        // A later visit raises its own variations; it cannot answer those of the old one.
        for (const [number, step] of after.entries()) step(builder, 100 + number)
        expect([...visitFigures(builder.car(), old, context)]).toEqual(figures)
      }),
      { numRuns: 150 },
    )
  })
})
