import type { Problem } from '../../domain/plan/problem.ts'
import type { Placement, Schedule, Score } from '../../domain/plan/schedule.ts'

/**
 * How good a schedule is, reckoned from its placements alone and apart from the search. Work that is not placed counts as done at twice the
 * horizon, so that leaving work out never looks better than doing it.
 */
export function scoreSchedule(problem: Problem, schedule: Schedule): Score {
  const done = problem.activities.map(({ tail }, index) => {
    const placement = schedule.placed[index] ?? null
    return placement === null ? 2 * problem.horizon : placement.finish + tail
  })
  const lateness = problem.cars.map(({ due, weight }, car) => {
    const finish = Math.max(0, ...done.filter((_, index) => problem.activities[index]?.car === car))
    return due === null ? 0 : weight * Math.max(0, finish - due)
  })
  return {
    lateness: lateness.reduce((sum, each) => sum + each, 0),
    moves: schedule.moves.length,
    end: Math.max(0, ...done),
    changes: problem.activities.filter(({ inForce }, index) =>
      isChanged(problem, inForce, schedule.placed[index] ?? null),
    ).length,
  }
}

function isChanged(
  { midnights }: Problem,
  inForce: { readonly start: number; readonly crew: readonly number[] } | null,
  placement: Placement | null,
): boolean {
  if (inForce === null) return false
  if (placement === null) return true
  const dayOf = (tick: number): number => midnights.findLastIndex((midnight) => midnight <= tick)
  const names = (crew: readonly number[]): string => crew.toSorted((a, b) => a - b).join()
  return dayOf(placement.start) !== dayOf(inForce.start) || names(placement.crew) !== names(inForce.crew)
}
