import type { EntryState } from '../car.ts'
import { hoursBetween, localDateOf } from '../time/zone.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { clockCountsTo } from '../value/person-day.ts'
import type { ClockPastDay } from './warning.ts'

/**
 * Clocks that run on past the end of their person's day, and stopped ones of which nobody has said when the work ended. A
 * confirmed, corrected or voided entry warns no more.
 */
export function clocksPastDay(entries: Iterable<EntryState>, context: HoursContext): readonly ClockPastDay[] {
  return [...entries].flatMap((entry) => (entry.gone === null ? clockPastDay(entry, context) : []))
}

function clockPastDay(entry: EntryState, { workshop, at }: HoursContext): readonly ClockPastDay[] {
  const { id, personId, time, stoppedAt, confirmed } = entry
  if (time.kind === 'day' || (time.kind === 'span' && confirmed)) return []
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
