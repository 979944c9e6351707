import type { CarState, EntryState } from '../car.ts'
import { hoursBetween, localDateOf } from '../time/zone.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { perRevision } from '../value/per-revision.ts'
import { clockCountsTo } from '../value/person-day.ts'
import type { ClockPastDay } from './warning.ts'

/**
 * Clocks of a car that run on past the end of their person's day, and stopped ones of which nobody has said when the work
 * ended. A confirmed, corrected or voided entry warns no more.
 */
export const carClocksPastDay = (car: CarState, context: HoursContext): readonly ClockPastDay[] =>
  openClocks(car).flatMap((entry) => clockPastDay(entry, context))

/** The same of clocks on the workshop itself. */
export const ownClocksPastDay = (context: HoursContext): readonly ClockPastDay[] =>
  withOpenClock(context.workshop.entries.values()).flatMap((entry) => clockPastDay(entry, context))

const withOpenClock = (entries: Iterable<EntryState>): readonly EntryState[] =>
  [...entries].filter(({ gone, time, confirmed }) => gone === null && (time.kind === 'running' || !confirmed))

/** Delivered cars have thousands of entries and hardly ever one of these. */
const openClocks = perRevision((car) => withOpenClock(car.entries.values()))

function clockPastDay(entry: EntryState, { workshop, at }: HoursContext): readonly ClockPastDay[] {
  const { id, personId, time, stoppedAt } = entry
  if (time.kind === 'day') return []
  const start = Date.parse(time.start)
  const until = stoppedAt ?? at
  const countsTo = time.kind === 'span' ? Date.parse(time.end) : clockCountsTo(workshop, personId, start, at)
  if (until <= countsTo) return []
  return [
    {
      kind: 'clock',
      key: `clock ${id}`,
      since: localDateOf(countsTo, workshop.zone),
      hours: hoursBetween(countsTo, until),
      entryId: id,
      personId,
      countsTo,
      stoppedAt,
    },
  ]
}
