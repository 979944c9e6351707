import type { CarState, Moment, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { PersonId } from '../ids.ts'

/** When a gate or task was finished in a visit, whichever way, and who did it. */
export interface TargetEnd {
  readonly at: Moment
  readonly did: readonly PersonId[]
}

/**
 * Null while it is open. Work of an earlier visit that was taken back since ended, as far as its facts still tell, when
 * that visit came to its last status: the figures of a visit stay, the day on which a gate of it was passed does not.
 */
export function targetEnd(car: CarState, visit: VisitState, target: WorkTarget): TargetEnd | null {
  const end = endNow(car, target)
  if (visit.left === null) return end
  const next = [...car.visits.values()].find((each) => each.opened.number > visit.opened.number)
  return end !== null && next !== undefined && end.at <= next.opened.happened
    ? end
    : { at: visit.statusSince, did: [] }
}

function endNow(car: CarState, target: WorkTarget): TargetEnd | null {
  if (target.kind === 'task') {
    const done = car.tasks.get(target.taskId)?.done
    return done ? { at: done.stamp.happened, did: done.did } : null
  }
  const repair = car.repairs.get(target.repairId)
  const done = repair?.gates[target.gate].done
  if (done) return { at: done.stamp.happened, did: done.kind === 'passed' ? done.did : [] }
  const ended = repair?.retired?.stamp ?? repair?.closedAsFound?.stamp
  return ended ? { at: ended.happened, did: [] } : null
}
