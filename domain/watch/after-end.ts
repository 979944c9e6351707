import type { CarState, VisitState } from '../car.ts'
import { LEAST_SAID_HOURS } from '../text/words.ts'
import { addDays } from '../time/local-date.ts'
import { dayStart, localDateOf } from '../time/zone.ts'
import { type HoursContext, visitEntries } from '../value/entry-hours.ts'
import { type TargetFigures, visitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import { targetEnd } from '../value/target-history.ts'
import { type Stretch, stretchDate, stretchesOn } from './stretches.ts'
import type { HoursAfterEnd } from './warning.ts'

/** Days, today among them, in which hours on finished work are worth a question: afterwards they are in Variance. */
const LATELY_DAYS = 7

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
  const figuresBy = visitFigures(car, visit.id, context)
  return [...workedOnSince(car, visit, from, zone)].flatMap((key) => {
    const figures = figuresBy.get(key)
    if (figures === undefined) return []
    const late = lateStretches(car, visit, figures, context).filter(
      (each) => stretchDate(each, context) >= from,
    )
    const hours = late.reduce((sum, each) => sum + each.hours, 0)
    const { target, standing } = figures
    const [first, last] = [late[0], late.at(-1)]
    if (standing === 'open' || first === undefined || last === undefined) return []
    if (hours < LEAST_SAID_HOURS) return []
    return [
      {
        kind: 'after the end' as const,
        key: `after the end ${targetKey(target)}`,
        since: stretchDate(first, context),
        hours,
        target,
        standing,
        personId: last.entry.personId,
        causes: standing === 'passed' ? causesOf(late) : [],
      },
    ]
  })
}

/** Keys of the gates and tasks with hours from a local date on. */
function workedOnSince(car: CarState, visit: VisitState, date: string, zone: string): ReadonlySet<string> {
  const from = dayStart(date, zone)
  const late = visitEntries(car, visit.id).filter(({ time }) =>
    time.kind === 'day' ? time.date >= date : Date.parse(time.start) >= from,
  )
  return new Set(late.flatMap(({ on }) => (on.kind === 'work' ? on.targets.map(targetKey) : [])))
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
