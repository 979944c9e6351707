import type { CarDraft, CarState } from '../car.ts'
import type { Fact, FactOf } from '../facts.ts'
import { applyAgreementFact } from './apply-agreement.ts'
import { applyBringIn } from './apply-bring-in.ts'
import { applyCarFact } from './apply-car.ts'
import { applyPlaceFact } from './apply-place.ts'
import { applyPlanFact } from './apply-plan.ts'
import { applyTimeFact } from './apply-time.ts'
import { applyWorkFact } from './apply-work.ts'
import { stampOf, voidedNumbers } from './fact-stamp.ts'

/** Everything that is known of a car, from its facts in journal order; voided facts are passed over. Null without facts. */
export const carFromFacts = (facts: readonly Fact[]): CarState | null => {
  const first = facts[0]
  if (first?.kind !== 'carAdded') return null
  const voided = voidedNumbers(facts)
  const car = createCar(first)
  for (const fact of facts) if (!voided.has(fact.number)) applyFact(car, fact)
  return car
}

/**
 * Takes further facts into a car in place; cost is per fact, whatever the length of the car's history.
 * Not for a `factVoided`, which reaches back: fold anew then.
 */
export const advanceCar = (car: CarState, facts: readonly Fact[]): void => {
  // The one place where a car that others only read is written.
  for (const fact of facts) applyFact(car as CarDraft, fact)
}

const applyFact = (car: CarDraft, fact: Fact): void => {
  car.revision = fact.number
  const stamp = stampOf(fact)
  applyCarFact(car, fact, stamp)
  applyWorkFact(car, fact, stamp)
  applyAgreementFact(car, fact, stamp)
  applyTimeFact(car, fact, stamp)
  applyPlaceFact(car, fact, stamp)
  applyPlanFact(car, fact, stamp)
  applyBringIn(car, fact, stamp)
}

const createCar = (fact: FactOf<'carAdded'>): CarDraft => ({
  id: fact.payload.carId,
  revision: 0,
  shellNumber: fact.payload.shellNumber,
  name: fact.payload.name,
  body: fact.payload.body,
  year: fact.payload.year,
  visits: new Map(),
  currentVisit: null,
  safety: { bracing: false, battery: false, fuel: false },
  dimensions: new Map(),
  repairs: new Map(),
  covers: [],
  fitGroups: new Map(),
  tasks: new Map(),
  attachments: new Map(),
  findings: new Map(),
  conditions: [],
  parts: new Map(),
  holds: new Map(),
  lifts: new Map(),
  variations: new Map(),
  spendings: new Map(),
  entries: new Map(),
  bookings: new Map(),
  standing: null,
  aways: new Map(),
  reports: new Map(),
  notes: [],
  pins: new Map(),
  left: new Map(),
  fixturePlanned: null,
  broughtIn: null,
})
