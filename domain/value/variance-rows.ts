import type { CarState, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { entryDate, entryPieces, type HoursContext, visitEntries } from './entry-hours.ts'
import { type TargetFigures, visitFigures } from './hours.ts'
import { hoursToGo } from './hours-to-go.ts'
import { shareOnReleased } from './released-hours.ts'
import { targetKey } from './target.ts'
import { targetEnd } from './target-history.ts'
import { noFigures, type VarianceRow } from './variance-row.ts'
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
 * The hours of a visit as rows that every grouping adds up. Spent hours stand with who logged them in the month that they
 * belong to. Authorised hours stand in the month in which they were accepted and leave in the month in which they are
 * given back; earned ones stand in the month in which the gate or task was done. Both are split over the people who
 * worked on it, by their hours without rework, else over those who are named to have done it, else nobody yet.
 */
export function varianceRows(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
): readonly VarianceRow[] {
  const figures = [...visitFigures(car, visit.id, context).values()]
  const workers = workersByTarget(car, visit, context)
  const agreed = agreedHours(car, visit, context)
  const budget = figures.flatMap((each) => {
    const key = targetKey(each.target)
    const end = targetEnd(car, visit, each.target)
    const toGo = hoursToGo(car, visit, each, context)
    const endMonth = end === null ? null : monthOf(end.at, context)
    const moves = [...(agreed.get(key) ?? []), ...standingHours(each, endMonth, toGo)]
    return splitOver(workShares(workers.get(key), end?.did), targetLabels(car, visit, each.target), moves)
  })
  return [...budget, ...spentRows(car, visit, context)]
}

function standingHours(
  { hours: { waiting, earned, givenBack } }: TargetFigures,
  endMonth: string | null,
  toGo: number,
): readonly Move[] {
  return [
    ...(earned === 0 ? [] : [{ month: endMonth, figures: { earned } }]),
    ...(givenBack === 0 ? [] : [{ month: endMonth, figures: { givenBack, authorised: -givenBack } }]),
    ...(waiting === 0 && toGo === 0 ? [] : [{ month: null, figures: { waiting, expected: toGo } }]),
  ]
}

/** The baseline and what was accepted since, by target key. */
function agreedHours(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
): ReadonlyMap<string, readonly Move[]> {
  const moves = new Map<string, Move[]>()
  const add = (target: WorkTarget, move: Move): void => {
    const key = targetKey(target)
    moves.set(key, [...(moves.get(key) ?? []), move])
  }
  for (const { target, accepted, baseline, agreed, moved } of visit.lines.values())
    add(
      target,
      accepted === null
        ? { month: null, figures: { baseline: baseline.agreed } }
        : {
            month: monthOf(accepted.happened, context),
            figures: { baseline: baseline.agreed, authorised: agreed + moved },
          },
    )
  for (const { visitId, status, lines, raised, decided, settled } of car.variations.values()) {
    if (visitId !== visit.id || (status !== 'accepted' && status !== 'workshop pays')) continue
    const month = monthOf((settled ?? decided ?? raised).happened, context)
    for (const { target, hours } of lines) add(target, { month, figures: { authorised: hours } })
  }
  return moves
}

function spentRows(car: CarState, visit: VisitState, context: HoursContext): readonly VarianceRow[] {
  return visitEntries(car, visit.id).flatMap((entry) => {
    const month = monthOfDate(entryDate(entry, context.workshop.zone))
    return entryPieces(car, entry, context).map(({ target, hours, rework }) => ({
      ...targetLabels(car, visit, target),
      ...noFigures,
      person: entry.personId,
      month,
      cause: rework,
      spent: hours,
      expected: hours,
      rework: rework === null ? 0 : hours,
      onReleased: hours * shareOnReleased(car, entry, target, context),
    }))
  })
}
