import { z } from 'zod'
import type { Moment } from '../car.ts'
import { timeOfDaySchema } from '../facts/shapes.ts'
import { addDays } from '../time/local-date.ts'
import { localDateOf, localToInstant, MS_PER_HOUR } from '../time/zone.ts'

/** When copies are made by themselves while the host runs; null in its place makes them by hand alone. */
export const copyScheduleSchema = z.discriminatedUnion('every', [
  /** On the workshop's clock. */
  z.strictObject({
    every: z.literal('day'),
    time: timeOfDaySchema('18:00'),
  }),
  z.strictObject({
    every: z.literal('hours'),
    hours: z.int().min(1, 'Once an hour is the most.').max(24, 'Once a day is the least.'),
  }),
])

export type CopySchedule = z.infer<typeof copyScheduleSchema>

/**
 * The latest moment at which a copy was to be made. A time that the clocks skip is the moment they change, one that comes twice
 * is the first.
 *
 * @param since when the schedule was set: earlier times are not made up for
 * @param last when the last copy was made; null before a first one
 * @returns null when none has come since `since`, or the last copy was made after it
 */
export function copyDue(
  schedule: CopySchedule,
  { since, last, now, zone }: CopyTimes & { readonly zone: string },
): Moment | null {
  const due =
    schedule.every === 'day' ? latestTime(schedule.time, now, zone) : hoursAfter(schedule.hours, since, last)
  const isOpen = due <= now && due >= since && (last === null || last < due)
  return isOpen ? due : null
}

export interface CopyTimes {
  readonly since: Moment
  readonly last: Moment | null
  readonly now: Moment
}

function latestTime(time: string, now: Moment, zone: string): Moment {
  const today = localDateOf(now, zone)
  const at = localToInstant(today, time, zone)
  return at <= now ? at : localToInstant(addDays(today, -1), time, zone)
}

/** The first one is made as soon as it is set. */
const hoursAfter = (hours: number, since: Moment, last: Moment | null): Moment =>
  last === null ? since : Math.max(since, last + hours * MS_PER_HOUR)
