import type { Moment } from '../car.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext } from './entry-hours.ts'

/**
 * The local date (YYYY-MM-DD) of a moment. A date takes 10 microseconds to work out and the gates of a car mostly share a few
 * moments, so those of one reckoning are kept.
 */
export function dateIn(context: HoursContext, moment: Moment): string {
  const dates = datesOf.get(context) ?? new Map<Moment, string>()
  datesOf.set(context, dates)
  const known = dates.get(moment)
  if (known !== undefined) return known
  const date = localDateOf(moment, context.workshop.zone)
  dates.set(moment, date)
  return date
}

const datesOf = new WeakMap<HoursContext, Map<Moment, string>>()
