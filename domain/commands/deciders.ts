import type { CarState, RepairState, VisitState } from '../car.ts'
import type { NewFact } from '../facts.ts'
import type { PersonId, RepairId, VisitId } from '../ids.ts'
import { ok, refuse, type Refusal, type Result } from '../refusal.ts'
import { isActive } from '../rules/standing.ts'
import type { CommandKind, CommandPayload } from './command-shapes.ts'
import type { Decided, DecideContext } from './decide.ts'
import { isOver } from '../visit-over.ts'

/** A context in which the command's car is known. */
export interface CarContext extends DecideContext {
  readonly car: CarState
}

export type Decider<K extends CommandKind> = (
  payload: CommandPayload<K>,
  context: DecideContext,
) => Result<Decided>
export type CarDecider<K extends CommandKind> = (
  payload: CommandPayload<K>,
  context: CarContext,
) => Result<Decided>

/** Accepts: these facts are added. */
export const record = (...facts: readonly NewFact[]): Result<Decided> =>
  ok({ facts, contacts: [], codes: [] })

/** For commands on a car: refuses when there is none. */
export const onCar =
  <K extends CommandKind>(decide: CarDecider<K>): Decider<K> =>
  (payload, context) =>
    context.car
      ? decide(payload, { ...context, car: context.car })
      : refuse('unknown', 'This car is not known.', 'Go back to Cars and choose it again.')

/** The first refusal of several checks, in order; null when all pass. */
export const firstRefusal = (...checks: readonly (Refused | null)[]): Refused | null =>
  checks.find((check) => check !== null) ?? null

export type Refused = { readonly ok: false; readonly refusal: Refusal }

/** The refusal where `bad`; null otherwise. */
export const refuseIf = (bad: boolean, ...refusal: Parameters<typeof refuse>): Refused | null =>
  bad ? refuse(...refusal) : null

/** A repair that still stands in the books. */
export const findRepair = (car: CarState, id: RepairId): Result<RepairState> => {
  const repair = car.repairs.get(id)
  if (!repair)
    return refuse('unknown', 'This repair is not known.', 'Go back to the car and choose it again.')
  if (!isActive(repair))
    return refuse('not-now', `${repair.plan.name} was retired.`, 'Choose the repair that took its work over.')
  return ok(repair)
}

/** Refuses the first of some repairs that is not known, or that was retired. */
export const unknownRepairs = (car: CarState, ids: readonly RepairId[]): Refused | null => {
  for (const id of ids) {
    const found = findRepair(car, id)
    if (!found.ok) return found
  }
  return null
}

/** Any visit of the car, over or not; refused where the car has none of that id. */
export const findVisit = (car: CarState, id: VisitId): Result<VisitState> => {
  const visit = car.visits.get(id)
  return visit ? ok(visit) : refuse('unknown', 'This visit is not known.', 'Reload the car and try again.')
}

/** The visit that is going on; work is refused on a car that was finished or delivered. */
export const currentVisit = (car: CarState): Result<VisitState> => {
  const visit = car.currentVisit ? car.visits.get(car.currentVisit) : undefined
  if (!visit) return refuse('not-now', 'The car has no visit yet.', 'Open a visit first.')
  if (visit.status === 'finished' || isOver(visit))
    return refuse(
      'not-now',
      `The visit is ${visit.status}.`,
      visit.status === 'finished'
        ? 'Set it back in work first.'
        : 'Open a new visit, for instance under warranty.',
    )
  return ok(visit)
}

/** Refuses who is not known, and who no longer works here. */
export const unknownPeople = (context: DecideContext, ids: readonly PersonId[]): Refused | null =>
  refuseIf(
    ids.some((id) => !context.workshop.people.get(id)?.active),
    'unknown',
    'Somebody named here does not work in the workshop.',
    'Choose people from the list.',
  )
