import { describe, expect, test } from 'vitest'
import type { Side } from '../../../domain/facts/shapes.ts'
import { fitGroupIdSchema, type RepairId } from '../../../domain/ids.ts'
import { linkClash, linkGraphOf } from '../../../domain/links/clashes.ts'
import type { Plan } from '../../../domain/plan/plan.ts'
import { fitHolds } from '../../../domain/rules/fit-holds.ts'
import { orderHolds } from '../../../domain/rules/order-holds.ts'
import { buildCar, repairId, type CarBuilder } from '../../support/car-builder.ts'
import { planInput, planOf } from '../../support/plan-input.ts'
import { createRandom, type Random } from '../../support/random.ts'
import { bayId } from '../../support/workshop-builder.ts'
import { asks } from '../../support/scene.ts'

const SIDES: readonly Side[] = ['left', 'right', 'centre']
const NAMES = ['A', 'B', 'C', 'D', 'E']

/** Up to five repairs with covers, sides, a fit group and some of it done already. */
function randomCar(random: Random): CarBuilder {
  const car = buildCar().add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })
  const names = NAMES.slice(0, random.between(2, 5))
  for (const name of names)
    car
      .repair(name, {
        loadBearing: random.next() < 0.6,
        zone: { side: random.pick(SIDES), place: 'middle' },
        primedFirst: random.next() < 0.3,
        gates: { 'trial-fitted': { asks: asks({ fitUp: true }) } },
      })
      .agree(name)
  for (const [index, over] of names.entries())
    for (const under of names.slice(index + 1)) if (random.next() < 0.3) car.cover(over, under)
  if (random.next() < 0.5)
    car.add('fitGroupSet', {
      groupId: fitGroupIdSchema.parse('group-one'),
      name: 'one',
      members: names.filter(() => random.next() < 0.5).map(repairId),
      hungParts: [],
      edges: [],
    })
  return car
}

/** Why gates would be held when they are passed in the plan's order; holds that only evidence clears are left aside. */
function heldInOrder(car: CarBuilder, plan: Plan): readonly string[] {
  const names = new Map<RepairId, string>(NAMES.map((name) => [repairId(name), name]))
  return plan.work
    .toSorted((a, b) => a.start - b.start || a.finish - b.finish)
    .flatMap(({ target }) => {
      if (target.kind !== 'gate') return []
      const state = car.car()
      const repair = state.repairs.get(target.repairId)!
      const holds = [...orderHolds(state, repair, target.gate), ...fitHolds(state, repair, target.gate)]
      car.pass(names.get(target.repairId)!, target.gate)
      return holds
        .filter(({ code, otherRepair }) => code === 'order' || code === 'support' || otherRepair !== null)
        .map(({ words }) => `${names.get(target.repairId)}: ${target.gate}: ${words}`)
    })
}

describe('A plan carried out in its own order', () => {
  test('passes every gate of random cars without an order, cover, fit or support hold', () => {
    const random = createRandom(1)
    let planned = 0
    for (let run = 0; run < 60; run += 1) {
      const car = randomCar(random)
      if (linkClash(linkGraphOf(car.car())) !== null) continue
      const plan = planOf(planInput([car.car()]), 20)
      expect({ run, faults: plan.faults, held: heldInOrder(car, plan) }).toEqual({
        run,
        faults: [],
        held: [],
      })
      planned += plan.work.length
    }
    expect(planned).toBeGreaterThan(500)
  })

  test('goes on the same way from where a car stands in the middle of its work', () => {
    const random = createRandom(2)
    let planned = 0
    for (let run = 0; run < 60; run += 1) {
      const car = randomCar(random)
      if (linkClash(linkGraphOf(car.car())) !== null) continue
      const whole = planOf(planInput([car.car()]), 10)
      const some = whole.work.toSorted((a, b) => a.start - b.start).slice(0, random.between(1, 20))
      expect(heldInOrder(car, { ...whole, work: some })).toEqual([])
      const rest = planOf(planInput([car.car()]), 20)
      expect({ run, faults: rest.faults, held: heldInOrder(car, rest) }).toEqual({
        run,
        faults: [],
        held: [],
      })
      planned += rest.work.length
    }
    expect(planned).toBeGreaterThan(300)
  })
})
