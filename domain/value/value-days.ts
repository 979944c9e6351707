import type { CarState, VisitState } from '../car.ts'
import { entryDate, entryHours, type HoursContext, visitEntries } from './entry-hours.ts'
import { visitFigures } from './hours.ts'
import { dateIn } from './local-dates.ts'
import type { DayHours } from './week-hours.ts'
import type { PlannedDay } from './planned-value.ts'
import { targetKey } from './target.ts'
import { targetEnd } from './target-history.ts'

/** EV of a visit: the earned hours of each gate and task, on the day on which it was done. */
export function earnedByDay(car: CarState, visit: VisitState, context: HoursContext): readonly DayHours[] {
  return [...visitFigures(car, visit.id, context).values()].flatMap(({ target, hours: { earned } }) => {
    const end = targetEnd(car, visit, target)
    return end === null || earned === 0
      ? []
      : [{ date: dateIn(context.workshop.zone, end.at), hours: earned }]
  })
}

/** EV of the work that has a planned value: all that was planned of a gate or task, on the day on which it was done. */
export function earnedOfPlannedByDay(
  car: CarState,
  visit: VisitState,
  days: readonly PlannedDay[],
  context: HoursContext,
): readonly DayHours[] {
  const figures = visitFigures(car, visit.id, context)
  return [...Map.groupBy(days, ({ target }) => targetKey(target))].flatMap(([key, own]) => {
    const each = figures.get(key)
    const end = each === undefined || each.standing === 'open' ? null : targetEnd(car, visit, each.target)
    if (end === null) return []
    const hours = own.reduce((sum, day) => sum + day.hours, 0)
    return [{ date: dateIn(context.workshop.zone, end.at), hours }]
  })
}

/** AC of a visit: the hours of its entries on the days that they belong to. */
export const spentByDay = (car: CarState, visit: VisitState, context: HoursContext): readonly DayHours[] =>
  visitEntries(car, visit.id).map((entry) => ({
    date: entryDate(entry, context.workshop.zone),
    hours: entryHours(entry, context),
  }))
