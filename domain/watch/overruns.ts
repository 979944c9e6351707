import type { CarState, VisitState } from '../car.ts'
import { hoursLeft, wholePoints } from '../plan/build/hours-left.ts'
import { pertQuantile } from '../statistics/pert-quantiles.ts'
import { LEAST_SAID_HOURS } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { type TargetFigures, visitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import { datePassed, type Stretch, stretchesOn } from './stretches.ts'
import type { Overrun } from './warning.ts'

/** The likelihood with which a gate was estimated to stay at or under its mark. */
const MARK = 0.8

/**
 * Open gates and tasks that have taken more than the 80 % point of their three points by the modified PERT beta, accepted
 * variations drawn in, or will when what was last said to be left is right. `isEstimated` leaves those out that have no
 * estimate to pass. It ends when the gate is done, or its estimate, its hours or what is left are put right.
 */
export function overruns(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  isEstimated: (figures: TargetFigures) => boolean,
): readonly Overrun[] {
  return [...visitFigures(car, visit.id, context).values()].flatMap((figures) =>
    figures.standing === 'open' && figures.hours.spent > 0 && isEstimated(figures)
      ? onTarget(car, figures, context)
      : [],
  )
}

function onTarget(
  car: CarState,
  { target, hours: { spent } }: TargetFigures,
  context: HoursContext,
): readonly Overrun[] {
  const key = targetKey(target)
  const mark = pertQuantile(wholePoints(car, target), MARK)
  const left = car.left.has(key) ? hoursLeft(car, target, context).hours : null
  const beyond = spent + (left ?? 0) - mark
  if (beyond < LEAST_SAID_HOURS) return []
  const stretches = stretchesOn(car, target, context)
  const since = earliest(datePassed(stretches, mark, context), dateSaid(car, key, stretches, mark, context))
  return [{ kind: 'overrun', key: `overrun ${key}`, since, hours: beyond, target, spent, left, mark }]
}

/** The date on which so much was said to be left that the mark would be passed; null when it was passed by work alone. */
function dateSaid(
  car: CarState,
  key: string,
  stretches: readonly Stretch[],
  mark: number,
  { workshop }: HoursContext,
): string | null {
  const said = car.left.get(key)
  if (said === undefined) return null
  const before = stretches.filter(({ from }) => from < said.stamp.happened)
  const spent = before.reduce((sum, { hours }) => sum + hours, 0)
  return spent + said.hours > mark ? localDateOf(said.stamp.happened, workshop.zone) : null
}

const earliest = (...dates: readonly (string | null)[]): string =>
  dates.filter((date) => date !== null).toSorted()[0] ?? ''
