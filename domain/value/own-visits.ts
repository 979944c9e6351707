import type { CarState, VisitState } from '../car.ts'
import type { VisitId } from '../ids.ts'

/** The visits of this workshop: what another one agreed and worked is no figure of this one. */
export const ownVisits = (car: CarState): readonly VisitState[] =>
  [...car.visits.values()].filter(({ from }) => from === null)

/** Whether a visit was another workshop's, before the car came with its file. */
export const isElsewhere = (car: CarState, visitId: VisitId | null): boolean =>
  visitId !== null && (car.visits.get(visitId)?.from ?? null) !== null
