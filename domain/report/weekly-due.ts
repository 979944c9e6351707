import type { Moment } from '../car.ts'
import type { WeeklyReports } from '../facts/reports-facts.ts'
import { dateToIsoWeek, previousIsoWeek, type IsoWeek } from '../time/iso-week.ts'
import { addDays, weekdayNumber } from '../time/local-date.ts'
import { localDateOf, localToInstant } from '../time/zone.ts'

/** The reports that are to be prepared by themselves, and since when. */
export interface DueReports {
  readonly at: Moment
  readonly week: IsoWeek
}

/** Thursday: the day that decides to which year an ISO week belongs has most of the week behind it. */
const FIRST_OWN_WEEKDAY = 4

/** Monday to Wednesday the week before is told, from Thursday on the week that is going on. */
export const tellsWeekBefore = ({ weekday }: Pick<WeeklyReports, 'weekday'>): boolean =>
  weekday < FIRST_OWN_WEEKDAY

/**
 * The latest set hour that has come, so that after a longer absence only one week is caught up. An hour that the clocks skip
 * is the moment they change, one that comes twice is the first.
 *
 * @param since when the hour was set: earlier ones are not made up for
 * @returns null when none has come since
 */
export function latestDue(
  weekly: WeeklyReports,
  since: Moment,
  now: Moment,
  zone: string,
): DueReports | null {
  const today = localDateOf(now, zone)
  const daysAgo = (weekdayNumber(today) - weekly.weekday + 7) % 7
  const dates = [addDays(today, -daysAgo), addDays(today, -daysAgo - 7)]
  const moments = dates.map((date) => ({ date, at: localToInstant(date, weekly.time, zone) }))
  const due = moments.find(({ at }) => at <= now)
  if (due === undefined || due.at < since) return null
  const week = dateToIsoWeek(due.date)
  return { at: due.at, week: tellsWeekBefore(weekly) ? previousIsoWeek(week) : week }
}
