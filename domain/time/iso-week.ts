import { Temporal } from 'temporal-polyfill'
import { ok, refuse, type Result } from '../refusal.ts'
import { addDays } from './local-date.ts'

/** A week of ISO 8601: Monday to Sunday; it belongs to the year that holds its Thursday. */
export interface IsoWeek {
  readonly year: number
  readonly week: number
}

/** The ISO week of a local date (YYYY-MM-DD). */
export function dateToIsoWeek(date: string): IsoWeek {
  const { yearOfWeek, weekOfYear } = Temporal.PlainDate.from(date)
  if (yearOfWeek === undefined || weekOfYear === undefined) throw new RangeError(`${date} has no ISO week`)
  return { year: yearOfWeek, week: weekOfYear }
}

/** 'YYYY-Www', like 2026-W48. */
export function formatIsoWeek({ year, week }: IsoWeek): string {
  return `${String(year).padStart(4, '0')}-W${String(week).padStart(2, '0')}`
}

/** Reads 'YYYY-Www'; week 53 only in the years that have one. */
export function parseIsoWeek(text: string): Result<IsoWeek> {
  const [, year, week] = /^(\d{4})-W(\d{2})$/.exec(text) ?? []
  if (year === undefined || week === undefined) return badWeek(`'${text.slice(0, 40)}' is not an ISO week.`)
  const parsed = { year: Number(year), week: Number(week) }
  const last = weeksInYear(parsed.year)
  if (parsed.week < 1 || parsed.week > last)
    return badWeek(`${year} has weeks 1 to ${last}, not ${parsed.week}.`)
  return ok(parsed)
}

/** The seven local dates of a week, Monday first. */
export function isoWeekDates(week: IsoWeek): readonly string[] {
  const monday = mondayOf(week)
  return [0, 1, 2, 3, 4, 5, 6].map((days) => addDays(monday, days))
}

export function nextIsoWeek(week: IsoWeek): IsoWeek {
  return dateToIsoWeek(addDays(mondayOf(week), 7))
}

export function previousIsoWeek(week: IsoWeek): IsoWeek {
  return dateToIsoWeek(addDays(mondayOf(week), -7))
}

/** 4 January is always in week 1. */
function mondayOf({ year, week }: IsoWeek): string {
  const fourth = Temporal.PlainDate.from({ year, month: 1, day: 4 })
  return fourth.add({ days: (week - 1) * 7 - (fourth.dayOfWeek - 1) }).toString()
}

/** 28 December is always in the last week. */
function weeksInYear(year: number): number {
  return Temporal.PlainDate.from({ year, month: 12, day: 28 }).weekOfYear ?? 52
}

function badWeek(message: string): Result<never> {
  return refuse('bad-input', message, 'Give a week like 2026-W48.')
}
