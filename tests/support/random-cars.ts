import fc from 'fast-check'
import type { CarState } from '../../domain/car.ts'
import type { WorkTarget } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { carIdSchema, typeIdSchema } from '../../domain/ids.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  personId,
  repairId,
  taskId,
  variationId,
} from './car-builder.ts'
import { repairPlan } from './plans.ts'

export const REPAIRS = ['Boot floor', 'Scuttle', 'Sill, left'] as const
export const TASK = 'Cavity wax'

const repairs = fc.constantFrom(...REPAIRS)
const gates = fc.constantFrom(...GATES)
const targets: fc.Arbitrary<WorkTarget> = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(repairs, gates).map(([repair, gate]) => onGate(repair, gate)) },
  { weight: 1, arbitrary: fc.constant(onTask(TASK)) },
)
const hours = fc.integer({ min: 1, max: 40 }).map((quarters) => quarters / 4)

/** One step in the life of a car; whether a workshop would do it just then plays no part in the sums. */
export const carSteps: fc.Arbitrary<(builder: CarBuilder, number: number) => unknown> = fc.oneof(
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

/** Cars with any story, of one visit or of warranty visits too. */
export const randomCars: fc.Arbitrary<CarState> = fc
  .tuple(fc.integer({ min: 1, max: 999_999 }), fc.array(carSteps, { maxLength: 25 }))
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
