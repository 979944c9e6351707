import { localDateOf } from '../time/zone.ts'
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
  const dates = datesOf(expected?.finish ?? null, context.workshop.zone)
  return dates === null || dates.late < today ? null : dates
}

export function datesOf(finish: PlannedFinish | null, zone: string): FinishDates | null {
  const range = finish?.range ?? null
  return range && { early: localDateOf(range.early, zone), late: localDateOf(range.late, zone) }
}
