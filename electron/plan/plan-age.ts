import type { Moment } from '../../domain/car.ts'
import { nextWorkingMoment } from '../../domain/time/calendar.ts'
import { dayEnd, dayStart, localDateOf, MS_PER_HOUR } from '../../domain/time/zone.ts'
import { personCalendar } from '../../domain/value/person-day.ts'
import type { WorkshopState } from '../../domain/workshop.ts'

/** When the first of the people begins to work on a local date; null when nobody works on it. */
export function workBegins(workshop: WorkshopState, date: string): Moment | null {
  const from = dayStart(date, workshop.zone)
  const to = dayEnd(date, workshop.zone)
  const begins = [...workshop.people.values()]
    .filter(({ active }) => active)
    .map(({ id }) => nextWorkingMoment(personCalendar(workshop, id), from))
    .flatMap((start) => (start.ok && start.value < to ? [start.value] : []))
  return begins.length === 0 ? null : Math.min(...begins)
}

/**
 * Whether time alone has made a plan old: a working day has begun since it was made, or somebody has looked at it and it
 * is an hour old. Planned work that nobody began moves on with the clock.
 *
 * @param lookedAt null when nobody has looked at it
 */
export function isOld(
  plan: { readonly madeAt: Moment; readonly lookedAt: Moment | null },
  now: Moment,
  workshop: WorkshopState,
): boolean {
  const { madeAt, lookedAt } = plan
  const begins = workBegins(workshop, localDateOf(now, workshop.zone))
  if (begins !== null && madeAt < begins && begins <= now) return true
  return lookedAt !== null && now - madeAt >= MS_PER_HOUR
}
