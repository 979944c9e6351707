import { instantToLocal } from '../time/zone.ts'
import type { IsoWeek } from '../time/iso-week.ts'

/** '1 hour', '3 hours', '1,634 hours'; give the plural where it is not noun + s: plural('person', 2, 'people'). */
export function plural(noun: string, count: number, many = `${noun}s`): string {
  return `${count < 1_000 ? count : fixed(count, 0)} ${count === 1 ? noun : many}`
}

/** With a capital as its first letter. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** 'a, b and c', with nothing for an empty list. */
export function joinWords(words: readonly string[]): string {
  if (words.length < 2) return words.join('')
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** A decimal figure with a fixed number of decimals, rounded by {@link rounded}, thousands set off by commas. */
export function fixed(value: number, decimals: number): string {
  const [whole = '', fraction] = rounded(value, decimals).toFixed(decimals).split('.')
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',')
  return fraction === undefined ? grouped : `${grouped}.${fraction}`
}

/**
 * Rounds as people do, halves away from zero in decimal (4.35 is 4.4, though binary floating point holds slightly
 * less), never to -0. Exact up to 1e10.
 */
export function rounded(value: number, decimals: number): number {
  const units = Math.round(Number((Math.abs(value) * 10 ** decimals).toPrecision(14)))
  return value < 0 && units > 0 ? -units / 10 ** decimals : units / 10 ** decimals
}

/** Hours of work or of waiting: '12.5 h'. One decimal unless asked; time entries in quarters want two. */
export function hours(value: number, decimals = 1): string {
  return `${fixed(value, decimals)} h`
}

/** Fewer hours than this are not said: they would read as 0.0 h. */
export const LEAST_SAID_HOURS = 0.05

/** How long something has run, in ms, as the whole minutes that are over: '0 min', '45 min', '2 h 05 min'; before its start '0 min'. */
export function runningTime(ms: number): string {
  const minutes = Math.max(0, Math.floor(ms / 60_000))
  const [whole, rest] = [Math.floor(minutes / 60), minutes % 60]
  return whole === 0 ? `${rest} min` : `${whole} h ${String(rest).padStart(2, '0')} min`
}

/** '6.5 h more', '2 h less' */
export const moreOrLess = (value: number, words: (value: number) => string = hours): string =>
  `${words(Math.abs(value))} ${value < 0 ? 'less' : 'more'}`

/** A length read in the workshop: '4.1 mm'. */
export function mm(value: number, decimals = 1): string {
  return `${fixed(value, decimals)} mm`
}

/** '340 kB', '12 MB', '1.4 GB': decimal units, rounded up so that nothing is said to be smaller than it is. */
export function bytesWords(bytes: number): string {
  const [kilo, mega] = [Math.ceil(bytes / 1e3), Math.ceil(bytes / 1e6)]
  if (kilo < 1_000) return `${kilo} kB`
  return mega < 1_000 ? `${mega} MB` : `${fixed(Math.ceil(bytes / 1e8) / 10, 1)} GB`
}

/** A local date (YYYY-MM-DD): 'Thu 26 Nov', and 'Thu 26 Nov 2027' when that is not the current year. */
export function dayWords(date: string, currentYear: number): string {
  const { year, month, day, weekday } = dateParts(date)
  const words = `${weekday} ${day} ${month}`
  return year === currentYear ? words : `${words} ${year}`
}

/** Two local dates, both included: '16 to 23 Dec', '28 Nov to 3 Dec', '28 Dec 2026 to 3 Jan 2027', '16 Dec' for one day. */
export function dateRangeWords(from: string, to: string, currentYear: number): string {
  const first = dateParts(from)
  const last = dateParts(to)
  const sameYear = first.year === last.year
  const end = `${last.day} ${last.month}${sameYear && last.year === currentYear ? '' : ` ${last.year}`}`
  if (from === to) return end
  if (!sameYear) return `${first.day} ${first.month} ${first.year} to ${end}`
  return first.month === last.month ? `${first.day} to ${end}` : `${first.day} ${first.month} to ${end}`
}

/** An instant (epoch ms) as the clock on the workshop's wall shows it: '14:30'. */
export function timeOfDay(instantMs: number, zone: string): string {
  return instantToLocal(instantMs, zone).time
}

/** 'week 48', and 'week 48 of 2025' when that is not the current ISO year. */
export function weekWords(week: IsoWeek, currentYear: number): string {
  return week.year === currentYear ? `week ${week.week}` : `week ${week.week} of ${week.year}`
}

/** Days of the week, 1 Monday to 7 Sunday, in their order: 'Mon, Tue and Sat'. */
export function weekdaysWords(weekdays: readonly number[]): string {
  return joinWords(WEEKDAYS.filter((_, index) => weekdays.includes(index + 1)))
}

/** Monday first. */
export const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const
export const LONG_WEEKDAYS = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const

export const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

function dateParts(date: string) {
  const moment = new Date(`${date}T00:00Z`)
  const [month, weekday] = [MONTHS[moment.getUTCMonth()], WEEKDAYS[(moment.getUTCDay() + 6) % 7]]
  return { year: moment.getUTCFullYear(), month, day: moment.getUTCDate(), weekday }
}
