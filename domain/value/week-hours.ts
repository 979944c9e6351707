import { dateToIsoWeek, formatIsoWeek } from '../time/iso-week.ts'
import { addDays } from '../time/local-date.ts'
import { MS_PER_DAY } from '../time/zone.ts'

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

/** From the first week with hours to the last, weeks without any between them too. */
export function sumByWeek(days: readonly DayHours[]): readonly WeekHours[] {
  const sums = new Map<string, number>()
  for (const [date, own] of Map.groupBy(days, (day) => day.date)) {
    const monday = mondayOf(date)
    sums.set(
      monday,
      own.reduce((sum, { hours }) => sum + hours, sums.get(monday) ?? 0),
    )
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

/** The Monday of the ISO week of a date, both YYYY-MM-DD; in plain days, as a plan has a hundred dates. */
export function mondayOf(date: string): string {
  const days = Date.parse(date) / MS_PER_DAY
  // 1 January 1970 was a Thursday.
  const sinceMonday = (days + 3) % DAYS_PER_WEEK
  return new Date((days - sinceMonday) * MS_PER_DAY).toISOString().slice(0, date.length)
}
