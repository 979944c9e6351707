import type { CarState, EntryState } from '../car.ts'
import { entryDate, entryHours } from '../value/entry-hours.ts'
import type { ViewContext } from './view-context.ts'
import type { EntryView } from './view-shapes.ts'
import { loggedOnWords } from './work-words.ts'

/** An entry of a car, or of the workshop itself where `car` is null. */
export function entryView(car: CarState | null, entry: EntryState, context: ViewContext): EntryView {
  const { time } = entry
  return {
    entryId: entry.id,
    carId: car?.id ?? null,
    personId: entry.personId,
    person: context.nameOf(entry.personId),
    what: loggedOnWords(car, entry.on),
    on: entry.on,
    shares: entry.shares,
    start: time.kind === 'day' ? null : Date.parse(time.start),
    end: time.kind === 'span' ? Date.parse(time.end) : null,
    date: entryDate(entry, context.workshop.zone),
    hours: entryHours(entry, context),
    running: time.kind === 'running',
    confirmed: entry.confirmed,
    rework: entry.rework.includes(true),
    cause: entry.cause,
    by: entry.by,
    number: entry.stamp.number,
  }
}

/** Entries that count, the latest day first. */
export function entryViews(
  car: CarState,
  entries: readonly EntryState[],
  context: ViewContext,
): readonly EntryView[] {
  return entries
    .filter(({ gone }) => gone === null)
    .map((entry) => entryView(car, entry, context))
    .toSorted(byLatest)
}

export const byLatest = (a: EntryView, b: EntryView): number =>
  b.date.localeCompare(a.date) || (b.start ?? 0) - (a.start ?? 0) || b.number - a.number
