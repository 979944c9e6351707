import type { CarState, VisitState } from '../car.ts'
import { dateToIsoWeek, formatIsoWeek, isoWeekDates } from '../time/iso-week.ts'
import { addDays } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'
import { entryDate, entryHours, type HoursContext, visitEntries } from './entry-hours.ts'
import { type TargetFigures, visitFigures } from './hours.ts'
import { targetEnd } from './target-history.ts'

/** Person-hours on a local date (YYYY-MM-DD). */
export interface DayHours {
  readonly date: string
  readonly hours: number
}

/** Person-hours in an ISO week, 'YYYY-Www'; `monday` is its first local date. */
export interface WeekHours {
  readonly week: string
  readonly monday: string
  readonly hours: number
}

/** EV of a visit: the earned hours of each gate and task that `isCounted`, on the day on which it was done. */
export function earnedByDay(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  isCounted: (each: TargetFigures) => boolean = () => true,
): readonly DayHours[] {
  return [...visitFigures(car, visit.id, context).values()].filter(isCounted).flatMap((each) => {
    const end = targetEnd(car, visit, each.target)
    const { earned } = each.hours
    return end === null || earned === 0
      ? []
      : [{ date: localDateOf(end.at, context.workshop.zone), hours: earned }]
  })
}

/** AC of a visit: the hours of its entries on the days that they belong to. */
export const spentByDay = (car: CarState, visit: VisitState, context: HoursContext): readonly DayHours[] =>
  visitEntries(car, visit.id).map((entry) => ({
    date: entryDate(entry, context.workshop.zone),
    hours: entryHours(entry, context),
  }))

/** From the first week with hours to the last, weeks without any between them too. */
export function sumByWeek(days: readonly DayHours[]): readonly WeekHours[] {
  const sums = new Map<string, number>()
  for (const { date, hours } of days) {
    const monday = mondayOf(date)
    sums.set(monday, (sums.get(monday) ?? 0) + hours)
  }
  const mondays = [...sums.keys()].toSorted()
  const last = mondays.at(-1)
  if (mondays[0] === undefined || last === undefined) return []
  const weeks: WeekHours[] = []
  for (let monday = mondays[0]; monday <= last; monday = addDays(monday, DAYS_PER_WEEK))
    weeks.push({ week: formatIsoWeek(dateToIsoWeek(monday)), monday, hours: sums.get(monday) ?? 0 })
  return weeks
}

export const DAYS_PER_WEEK = 7

export const mondayOf = (date: string): string => isoWeekDates(dateToIsoWeek(date))[0] ?? date
