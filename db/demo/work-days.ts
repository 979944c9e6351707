import type { Moment } from '../../domain/car.ts'
import { addDays, daysBetween, weekdayNumber } from '../../domain/time/local-date.ts'
import { isoWeekDates } from '../../domain/time/iso-week.ts'
import { localToInstant } from '../../domain/time/zone.ts'

/** The workshop's working days, counted from the last one that is not after a given date: that is 0, the one before -1. */
export interface WorkDays {
  readonly date: (day: number) => string
  /** The moment of a local time 'HH:MM' on a working day. */
  readonly at: (day: number, time: string) => Moment
  readonly holidays: readonly { readonly date: string; readonly name: string }[]
}

export function createWorkDays(today: string, zone: string): WorkDays {
  const holidays = holidaysAround(today)
  const closed = new Set(holidays.map(({ date }) => date))
  const isWorked = (date: string) => weekdayNumber(date) <= 5 && !closed.has(date)
  const dates = new Map<number, string>()

  const nextWorked = (from: string, step: 1 | -1): string => {
    let date = from
    while (!isWorked(date)) date = addDays(date, step)
    return date
  }
  const date = (day: number): string => {
    const known = dates.get(day)
    if (known !== undefined) return known
    const step = day > 0 ? 1 : -1
    const found = day === 0 ? nextWorked(today, -1) : nextWorked(addDays(date(day - step), step), step)
    dates.set(day, found)
    return found
  }
  return { date, at: (day, time) => localToInstant(date(day), time, zone), holidays }
}

/** New Year, Christmas and two weeks of summer closing, which is left out where it would reach into the last weeks. */
function holidaysAround(today: string): readonly { readonly date: string; readonly name: string }[] {
  const year = Number(today.slice(0, 4))
  return [year - 1, year, year + 1].flatMap((each) => [
    { date: `${each}-01-01`, name: 'New Year' },
    ...summerClosing(each)
      .filter((date) => isFarFrom(date, today))
      .map((date) => ({ date, name: 'Summer closing' })),
    { date: `${each}-12-25`, name: 'Christmas' },
    { date: `${each}-12-26`, name: 'Christmas' },
  ])
}

/** ISO weeks. */
const CLOSED_WEEKS = [32, 33]

/** Monday to Friday. */
const summerClosing = (year: number): readonly string[] =>
  CLOSED_WEEKS.flatMap((week) => isoWeekDates({ year, week }).slice(0, 5))

const CALENDAR_DAYS_KEPT_OPEN = 40

const isFarFrom = (date: string, today: string): boolean =>
  Math.abs(daysBetween(date, today)) > CALENDAR_DAYS_KEPT_OPEN
