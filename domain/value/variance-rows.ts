import type { CarState, EntryState, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { entryDate, type HoursContext, type IsCounted, visitPieces } from './entry-hours.ts'
import { figuresOf, type TargetFigures } from './hours.ts'
import { hoursToGo } from './hours-to-go.ts'
import { shareOnReleased } from './released-hours.ts'
import { targetKey } from './target.ts'
import { targetEnd } from './target-history.ts'
import type { VarianceRow } from './variance-row.ts'
import { isAgreed } from './varied-hours.ts'
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
 * worked on it, by their hours without rework, else over those who are named to have done it, else nobody yet. Each gate's
 * and task's rows go by itself alone, so that some may be left out.
 */
export function varianceRows(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  isCounted: IsCounted | null = null,
): readonly VarianceRow[] {
  const figures = [...figuresOf(car, visit, context, isCounted).values()]
  const workers = workersByTarget(car, visit, context, isCounted)
  const agreed = agreedHours(car, visit, context)
  const budget = figures.flatMap((each) => {
    const key = targetKey(each.target)
    const end = targetEnd(car, visit, each.target)
    const toGo = hoursToGo(car, visit, each, context)
    const endMonth = end === null ? null : monthOf(end.at, context)
    const moves = [...(agreed.get(key) ?? []), ...standingHours(each, endMonth, toGo)]
    return splitOver(workShares(workers.get(key), end?.did), targetLabels(car, visit, each.target), moves)
  })
  return [...budget, ...spentPieces(car, visit, context, isCounted).map(({ row }) => row)]
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
    if (visitId !== visit.id || !isAgreed(status)) continue
    const month = monthOf((settled ?? decided ?? raised).happened, context)
    for (const { target, hours } of lines) add(target, { month, figures: { authorised: hours } })
  }
  return moves
}

/** One target's part of an entry that counts, with the row that it gives. */
export interface SpentPiece {
  readonly entry: EntryState
  readonly row: VarianceRow
}

/** The hours of a visit's entries, gate by gate. */
export function spentPieces(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  isCounted: IsCounted | null = null,
): readonly SpentPiece[] {
  const figures = figuresOf(car, visit, context, isCounted)
  return visitPieces(car, visit.id, context, isCounted).map(({ entry, target, key, hours, rework }) => {
    const month = monthOfDate(entryDate(entry, context.workshop.zone))
    const labels = { ...targetLabels(car, visit, target), person: entry.personId, month, cause: rework }
    const onReleased = hours * shareOnReleased(car, entry, target, context)
    const row = {
      labels,
      figures: {
        spent: hours,
        expected: hours,
        ...(figures.get(key)?.standing === 'open' && { spentOnOpen: hours }),
        ...(rework !== null && { rework: hours }),
        ...(onReleased !== 0 && { onReleased }),
      },
    }
    return { entry, row }
  })
}
