import type { CarState, VisitState } from '../car.ts'
import type { ThreePoint, WorkTarget } from '../facts/shapes.ts'
import type { VisitId } from '../ids.ts'
import { perRevision } from './per-revision.ts'
import { targetKey } from './target.ts'

/** Expected person-hours of three points, (a + 4m + b) / 6: the agreed figure unless agreed otherwise. */
export function expectedHours({ shortest, likely, longest }: ThreePoint): number {
  return (shortest + 4 * likely + longest) / 6
}

/**
 * Person-hours that a gate or task is estimated at in a visit, accepted or not: its lines as they stand, else what its
 * plan expects; 0 when nothing is known of it.
 */
export function estimatedHours(car: CarState, visitId: VisitId | null, target: WorkTarget): number {
  const onLines = visitId === null ? undefined : hoursByTarget(car).get(visitId)?.get(targetKey(target))
  return onLines ?? plannedHours(car, target)
}

const hoursByTarget = perRevision(
  (car): ReadonlyMap<VisitId, ReadonlyMap<string, number>> =>
    new Map([...car.visits.values()].map((visit) => [visit.id, hoursOfLines(visit)] as const)),
)

function hoursOfLines(visit: VisitState): ReadonlyMap<string, number> {
  const hours = new Map<string, number>()
  for (const line of visit.lines.values()) {
    const key = targetKey(line.target)
    hours.set(key, (hours.get(key) ?? 0) + line.agreed + line.moved)
  }
  return hours
}

function plannedHours(car: CarState, target: WorkTarget): number {
  const plan =
    target.kind === 'gate'
      ? car.repairs.get(target.repairId)?.plan.gates[target.gate]
      : car.tasks.get(target.taskId)?.plan
  return plan === undefined ? 0 : expectedHours(plan.hours)
}
