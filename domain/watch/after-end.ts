import type { CarState, VisitState } from '../car.ts'
import { addDays } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { type TargetFigures, visitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import { targetEnd } from '../value/target-history.ts'
import { type Stretch, stretchesOn } from './stretches.ts'
import { type HoursAfterEnd, LEAST_SAID_HOURS } from './warning.ts'

/** Days, today among them, in which hours on finished work are worth a question: afterwards they are in Variance. */
export const LATELY_DAYS = 7

/**
 * Hours of the last days that were begun after their gate or task had been passed, marked not needed, or ended with its
 * repair. It ends when the hours are moved or a week old, or when the gate is reopened: then they are its rework.
 */
export function hoursAfterEnd(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
): readonly HoursAfterEnd[] {
  const { zone } = context.workshop
  const from = addDays(localDateOf(context.at, zone), 1 - LATELY_DAYS)
  return [...visitFigures(car, visit.id, context).values()].flatMap((figures) => {
    const late = lateStretches(car, visit, figures, context).filter(({ date }) => date >= from)
    const hours = late.reduce((sum, each) => sum + each.hours, 0)
    const { target, standing } = figures
    const [first, last] = [late[0], late.at(-1)]
    if (standing === 'open' || first === undefined || last === undefined) return []
    if (hours < LEAST_SAID_HOURS) return []
    return [
      {
        kind: 'after the end' as const,
        key: `after the end ${targetKey(target)}`,
        since: first.date,
        hours,
        target,
        standing,
        personId: last.entry.personId,
        causes: standing === 'passed' ? causesOf(late) : [],
      },
    ]
  })
}

function lateStretches(
  car: CarState,
  visit: VisitState,
  { target, standing, hours }: TargetFigures,
  context: HoursContext,
): readonly Stretch[] {
  if (standing === 'open' || hours.spent <= 0) return []
  const end = targetEnd(car, visit, target)
  return end === null ? [] : stretchesOn(car, target, context).filter(({ from }) => from >= end.at)
}

const causesOf = (stretches: readonly Stretch[]): HoursAfterEnd['causes'] => [
  ...new Set(stretches.map(({ rework }) => rework ?? 'not stated')),
]
