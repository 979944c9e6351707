import type { Moment } from '../car.ts'
import { dateToDayIndex, type WorkingCalendar } from '../time/calendar.ts'
import { addDays } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'
import { workshopCalendar } from '../value/planned-value.ts'
import type { WorkshopState } from '../workshop.ts'
import type { Telling } from './telling.ts'
import type { PlannedFinish } from './week-expected.ts'

/** Local dates, YYYY-MM-DD; the later one is not exceeded in four cases of five, the earlier one in half of them. */
export interface FinishDates {
  readonly early: string
  readonly late: string
}

/**
 * The dates that the report says the car is expected on. Null where it says none: the manager chose so, no plan was kept,
 * work cannot be planned or is paused, or the day that was planned has gone by.
 */
export function finishDates(
  { choices, expected, visit, context }: Telling,
  today: string,
): FinishDates | null {
  if (choices.dates === 'none' || visit.status === 'paused') return null
  const dates = datesOf(expected?.finish ?? null, context.workshop)
  return dates === null || dates.late < today ? null : dates
}

/** What is done while nobody works, as curing is, is done for the owner on the next working day. */
export function datesOf(
  finish: PlannedFinish | null,
  workshop: Pick<WorkshopState, 'zone' | 'week' | 'holidays'>,
): FinishDates | null {
  const range = finish?.range ?? null
  if (range === null) return null
  const calendar = workshopCalendar(workshop)
  const dayOf = (at: Moment): string => workingDate(calendar, localDateOf(at, workshop.zone))
  return { early: dayOf(range.early), late: dayOf(range.late) }
}

/** A workshop that never works has no better date than the first. */
const MOST_DAYS_OFF = 60

function workingDate(calendar: WorkingCalendar, first: string): string {
  for (let days = 0; days < MOST_DAYS_OFF; days += 1) {
    const date = addDays(first, days)
    if (calendar.day(dateToDayIndex(date)).spans.length > 0) return date
  }
  return first
}
