import { Temporal } from 'temporal-polyfill'

/**
 * Local dates are plain text, 'YYYY-MM-DD', without a zone: they sort and compare as text. Functions that take one
 * expect a date that {@link isLocalDate} accepts and throw a RangeError otherwise (a defect: doors check first).
 */
export function isLocalDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number)
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month)
}

export function addDays(date: string, days: number): string {
  return Temporal.PlainDate.from(date).add({ days }).toString()
}

/** Whole days from the first date to the second; negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to)).days
}

/** 1 for Monday to 7 for Sunday (ISO 8601). */
export function weekdayNumber(date: string): number {
  return Temporal.PlainDate.from(date).dayOfWeek
}

function daysInMonth(year: number, month: number): number {
  return Temporal.PlainYearMonth.from({ year, month }).daysInMonth
}
