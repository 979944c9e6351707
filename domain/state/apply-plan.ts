import type { CarDraft, Stamp } from '../car.ts'
import type { Fact } from '../facts.ts'
import type { Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { targetKey, targetStanding } from '../value/target.ts'

/** What the planner goes by; a pin and what was said to be left end with the work that they are on. */
export const applyPlanFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  applyOwnFact(car, fact, stamp)
  for (const notes of [car.pins, car.left])
    for (const [key, { target }] of notes) if (targetStanding(car, target) !== 'open') notes.delete(key)
}

const applyOwnFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'workPinned':
      car.pins.set(targetKey(fact.payload.target), { ...fact.payload, stamp })
      return
    case 'workUnpinned':
      car.pins.delete(targetKey(fact.payload.target))
      return
    case 'leftSaid':
      car.left.set(targetKey(fact.payload.target), { ...fact.payload, stamp })
      return
    case 'decisionExpected': {
      const variation = car.variations.get(fact.payload.variationId)
      if (variation) variation.expected = fact.payload.expected
      return
    }
    case 'fixturePlanned':
      car.fixturePlanned = fact.payload.fixture
      return
    case 'repairSplit':
      return dropLeft(car, fact.payload.repairId, gatesOf(fact.payload.moves))
    case 'repairsMerged':
      return dropLeft(car, fact.payload.into, gatesOf(fact.payload.moves))
    default:
      return
  }
}

/** What was said of gates that are not the same work any more: undone, or with other hours. */
export const dropLeft = (car: CarDraft, repairId: RepairId, gates: readonly Gate[]): void => {
  for (const gate of gates) car.left.delete(targetKey({ kind: 'gate', repairId, gate }))
}

const gatesOf = (moves: readonly { readonly gate: Gate }[]): readonly Gate[] => moves.map(({ gate }) => gate)
