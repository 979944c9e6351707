import type { CarState, VisitState } from '../car.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext } from './entry-hours.ts'
import { type TargetFigures, visitFigures } from './hours.ts'
import type { PlannedDay } from './planned-value.ts'
import { targetKey } from './target.ts'
import { targetEnd } from './target-history.ts'
import type { VarianceRow } from './variance-row.ts'
import {
  type Move,
  monthOf,
  monthOfDate,
  splitOver,
  targetLabels,
  workersByTarget,
  workShares,
} from './work-shares.ts'

/**
 * The rows of a visit's schedule figures: what was planned up to today's end, in the month of its day, and what was earned
 * of the work that has a planned value. They go with the day, so they are made when they are asked for, and are added
 * to the rows of hours. Planned work stands with the people who did it, so that both sides of a comparison are theirs.
 */
export function plannedRows(
  car: CarState,
  visit: VisitState,
  planned: readonly PlannedDay[],
  context: HoursContext,
): readonly VarianceRow[] {
  const today = localDateOf(context.at, context.workshop.zone)
  const figures = visitFigures(car, visit.id, context)
  const workers = workersByTarget(car, visit, context)
  return [...Map.groupBy(planned, ({ target }) => targetKey(target))].flatMap(([key, days]) => {
    const each = figures.get(key)
    if (each === undefined) return []
    const end = targetEnd(car, visit, each.target)
    const moves = [
      ...days.filter(({ date }) => date <= today).map(dayToMove),
      ...earnedMove(each, end === null ? null : monthOf(end.at, context)),
    ]
    return splitOver(workShares(workers.get(key), end?.did), targetLabels(car, visit, each.target), moves)
  })
}

const dayToMove = ({ date, hours }: PlannedDay): Move => ({
  month: monthOfDate(date),
  figures: { planned: hours },
})

const earnedMove = ({ hours }: TargetFigures, month: string | null): readonly Move[] =>
  hours.earned === 0 ? [] : [{ month, figures: { earnedOfPlanned: hours.earned } }]
