import type { CarState, EntryState, Moment } from '../car.ts'
import { entryShares } from '../value/entry-hours.ts'
import { clockCountsTo } from '../value/person-day.ts'
import { perRevision } from '../value/per-revision.ts'
import { MS_PER_HOUR } from '../time/zone.ts'
import type { ClockView, WatchView } from './shared-views.ts'
import type { ViewContext } from './view-context.ts'
import { loggedOnWords, targetWords } from './work-words.ts'

const MS_PER_MINUTE = MS_PER_HOUR / 60

/** Entries of a car that still want something: a clock to be stopped or confirmed, a watch to be completed. */
export interface OpenEntries {
  readonly running: readonly EntryState[]
  /** Stopped past the end of the person's day, and nobody has said when the work ended. */
  readonly unconfirmed: readonly EntryState[]
  readonly watched: readonly EntryState[]
}

export const openEntries = perRevision((car): OpenEntries => sortEntries(car.entries.values()))

/** The same for the workshop's own entries, which are few. */
function sortEntries(entries: Iterable<EntryState>): OpenEntries {
  const standing = [...entries].filter(({ gone }) => gone === null)
  return {
    running: standing.filter(({ time }) => time.kind === 'running'),
    unconfirmed: standing.filter(({ confirmed }) => !confirmed),
    watched: standing.filter(({ watch }) => watch !== null && watch.completed === null),
  }
}

/** A clock; `car` is null for one on the workshop itself. Entries by hand have no clock. */
export function clockView(
  car: CarState | null,
  entry: EntryState,
  context: ViewContext,
): readonly ClockView[] {
  if (entry.time.kind === 'day') return []
  const since = Date.parse(entry.time.start)
  const counts = countedTo(entry, since, context)
  return [
    {
      entryId: entry.id,
      personId: entry.personId,
      person: context.nameOf(entry.personId),
      carId: car?.id ?? null,
      carName: car?.name ?? context.workshop.name,
      what: loggedOnWords(car, entry.on),
      on: entry.on,
      rework: entry.rework.includes(true),
      parts: car === null ? [] : partsOf(car, entry),
      since,
      hotWork: entry.hotWork,
      pastDayEnd: (entry.stoppedAt ?? context.at) > counts,
      countsTo: counts,
      stoppedAt: entry.stoppedAt,
    },
  ]
}

/** A fire watch that nobody has completed; it is kept where the shell stands now. */
export function watchView(
  car: CarState | null,
  entry: EntryState,
  context: ViewContext,
): readonly WatchView[] {
  if (entry.watch === null || entry.watch.completed !== null) return []
  const { from, minutes } = entry.watch
  const ends = from + minutes * MS_PER_MINUTE
  return [
    {
      entryId: entry.id,
      carId: car?.id ?? null,
      carName: car?.name ?? context.workshop.name,
      what: loggedOnWords(car, entry.on),
      person: context.nameOf(entry.personId),
      bay: (car?.standing && context.workshop.bays.get(car.standing.bayId)?.name) ?? '',
      from,
      ends,
      over: context.at >= ends,
    },
  ]
}

/** All fire watches of the workshop that nobody has completed, the one that ends first before the others. */
export function watchViews(cars: readonly CarState[], context: ViewContext): readonly WatchView[] {
  const own = sortEntries(context.workshop.entries.values()).watched
  return [
    ...cars.flatMap((car) => openEntries(car).watched.flatMap((entry) => watchView(car, entry, context))),
    ...own.flatMap((entry) => watchView(null, entry, context)),
  ].toSorted((a, b) => a.ends - b.ends)
}

/** All running clocks of the workshop, or all stopped ones that wait to be confirmed, the oldest first. */
export function clockViews(
  cars: readonly CarState[],
  which: 'running' | 'unconfirmed',
  context: ViewContext,
): readonly ClockView[] {
  const own = sortEntries(context.workshop.entries.values())[which]
  return [
    ...cars.flatMap((car) => openEntries(car)[which].flatMap((entry) => clockView(car, entry, context))),
    ...own.flatMap((entry) => clockView(null, entry, context)),
  ].toSorted((a, b) => a.since - b.since)
}

function partsOf(car: CarState, entry: EntryState): ClockView['parts'] {
  if (entry.on.kind === 'workshop') return []
  const shares = entryShares(car, entry)
  return entry.on.targets.map((target, index) => ({
    words: targetWords(car, target),
    share: shares[index] ?? 0,
  }))
}

function countedTo(entry: EntryState, since: Moment, { workshop, at }: ViewContext): Moment {
  return entry.time.kind === 'span'
    ? Date.parse(entry.time.end)
    : clockCountsTo(workshop, entry.personId, since, at)
}
