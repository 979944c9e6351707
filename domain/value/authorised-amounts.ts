import type { CarState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { VisitId } from '../ids.ts'
import { isElsewhere, ownVisits } from './own-visits.ts'
import { targetKey } from './target.ts'
import { isAgreed } from './varied-hours.ts'

/** Hours of one gate or task that were authorised at one moment: an accepted estimate line, or a part of a variation. */
export interface AuthorisedAmount {
  /** Its estimate line, or its variation with its target: unique on the car. */
  readonly id: string
  readonly visitId: VisitId
  readonly target: WorkTarget
  /** Person-hours; below 0 for less work. */
  readonly hours: number
  /** Journal number of the fact that authorised it. */
  readonly accepted: number
}

/**
 * What makes up the authorised hours of a car in this workshop, before any are given back: accepted lines with what moved, and variations that
 * are accepted or paid by the workshop.
 */
export function authorisedAmounts(car: CarState): readonly AuthorisedAmount[] {
  return [...lineAmounts(car), ...variationAmounts(car)]
}

function lineAmounts(car: CarState): readonly AuthorisedAmount[] {
  return ownVisits(car).flatMap((visit) =>
    [...visit.lines].flatMap(([id, { target, agreed, moved, accepted }]) =>
      accepted === null
        ? []
        : [{ id, visitId: visit.id, target, hours: agreed + moved, accepted: accepted.number }],
    ),
  )
}

function variationAmounts(car: CarState): readonly AuthorisedAmount[] {
  return [...car.variations.values()].flatMap(({ id, visitId, status, lines, raised, decided, settled }) => {
    if (isElsewhere(car, visitId) || !isAgreed(status)) return []
    const accepted = (settled ?? decided ?? raised).number
    return [...Map.groupBy(lines, ({ target }) => targetKey(target))].map(([key, own]) => ({
      id: `${id}/${key}`,
      visitId,
      target: (own[0] as (typeof own)[number]).target,
      hours: own.reduce((sum, { hours }) => sum + hours, 0),
      accepted,
    }))
  })
}
