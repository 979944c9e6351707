import type { CarState, EntryState, Moment } from '../car.ts'
import type { ReworkCause, WorkTarget } from '../facts/shapes.ts'
import type { TimeSpan } from '../facts/time-facts.ts'
import type { VisitId } from '../ids.ts'
import { hoursBetween } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import { estimatedHours } from './estimated-hours.ts'
import { dateIn } from './local-dates.ts'
import { perRevision } from './per-revision.ts'
import { clockCountsTo } from './person-day.ts'
import { targetKey } from './target.ts'

/** What hours are reckoned at: a running clock counts to `at` or to the end of the person's day. */
export interface HoursContext {
  readonly at: Moment
  readonly workshop: WorkshopState
}

/** One target's part of an entry, in person-hours. */
export interface EntryPiece {
  readonly target: WorkTarget
  readonly hours: number
  /** Null when the hours are no rework. */
  readonly rework: ReworkCause | 'not stated' | null
}

/** Person-hours of an entry as they count; 0 for one that was corrected. A stopped clock's span ends where it counts to. */
export function entryHours(entry: EntryState, context: HoursContext): number {
  if (entry.gone !== null) return 0
  const { time } = entry
  switch (time.kind) {
    case 'day':
      return time.hours
    case 'span':
      return spanHours(time)
    case 'running': {
      const start = Date.parse(time.start)
      return hoursBetween(start, clockCountsTo(context.workshop, entry.personId, start, context.at))
    }
  }
}

function spanHours(time: Extract<TimeSpan, { kind: 'span' }>): number {
  const known = lengths.get(time)
  if (known !== undefined) return known
  const length = hoursBetween(Date.parse(time.start), Date.parse(time.end))
  lengths.set(time, length)
  return length
}

/** Every figure of a car asks for the length of each of its entries. */
const lengths = new WeakMap<TimeSpan, number>()

/**
 * From when on the work of an entry counts, to be compared with a passing. Of a day without times nobody knows; work that
 * says a cause of rework counts from the day's end, other work from its beginning, in UTC.
 */
export function entryStart(time: EntryState['time'], cause: ReworkCause | null): Moment {
  if (time.kind === 'day') return Date.parse(`${time.date}T${cause === null ? '00:00:00' : '23:59:59'}Z`)
  const known = starts.get(time)
  if (known !== undefined) return known
  const start = Date.parse(time.start)
  starts.set(time, start)
  return start
}

/** Each gate that is passed first asks for the start of every entry of the visit again. */
const starts = new WeakMap<EntryState['time'], Moment>()

/** The local date (YYYY-MM-DD) that an entry belongs to: the one it started on. */
export function entryDate(entry: EntryState, zone: string): string {
  return entry.time.kind === 'day' ? entry.time.date : dateIn(zone, entryStart(entry.time, entry.cause))
}

/**
 * One share per target, adding up to 1: as the person said, else by the targets' estimated hours, else equal. Empty for
 * the workshop's own entries.
 */
export function entryShares(car: CarState, entry: EntryState): readonly number[] {
  if (entry.on.kind === 'workshop') return []
  const { targets } = entry.on
  if (targets.length === 1) return WHOLE
  return (
    sharesOf(entry.shares?.length === targets.length ? entry.shares : []) ??
    sharesOf(targets.map((target) => estimatedHours(car, entry.visitId, target))) ??
    targets.map(() => 1 / targets.length)
  )
}

const WHOLE: readonly number[] = [1]

/** An entry's hours split over its targets. */
export function entryPieces(car: CarState, entry: EntryState, context: HoursContext): readonly EntryPiece[] {
  if (entry.on.kind === 'workshop') return []
  const shares = entryShares(car, entry)
  const whole = entryHours(entry, context)
  return entry.on.targets.map((target, index) => ({
    target,
    hours: whole * (shares[index] ?? 0),
    rework: entry.rework[index] === true ? reworkCause(car, entry, target) : null,
  }))
}

/** By target key: whether a gate or task is looked at. */
export type IsCounted = (targetKey: string) => boolean

/** One target's part of an entry, with the key of its target. */
export interface CountedPiece extends EntryPiece {
  readonly entry: EntryState
  readonly key: string
}

/** The pieces of a visit's entries, or those on some gates and tasks only. */
export function visitPieces(
  car: CarState,
  visitId: VisitId,
  context: HoursContext,
  isCounted: IsCounted | null,
): readonly CountedPiece[] {
  const pieces: CountedPiece[] = []
  for (const entry of entriesOn(car, visitId, isCounted))
    for (const piece of entryPieces(car, entry, context)) {
      const key = targetKey(piece.target)
      if (isCounted === null || isCounted(key)) pieces.push({ ...piece, entry, key })
    }
  return pieces
}

function entriesOn(car: CarState, visitId: VisitId, isCounted: IsCounted | null): Iterable<EntryState> {
  if (isCounted === null) return visitEntries(car, visitId)
  const byTarget = entriesByTarget(car).get(visitId) ?? new Map<string, readonly EntryState[]>()
  return new Set([...byTarget].flatMap(([key, entries]) => (isCounted(key) ? entries : [])))
}

const entriesByTarget = perRevision(
  (car): ReadonlyMap<VisitId, ReadonlyMap<string, readonly EntryState[]>> =>
    new Map([...car.visits.keys()].map((id) => [id, groupByTarget(visitEntries(car, id))] as const)),
)

function groupByTarget(entries: readonly EntryState[]): ReadonlyMap<string, readonly EntryState[]> {
  const byTarget = new Map<string, EntryState[]>()
  for (const entry of entries) {
    const targets = entry.on.kind === 'work' ? entry.on.targets : []
    for (const key of new Set(targets.map(targetKey))) {
      const known = byTarget.get(key)
      if (known === undefined) byTarget.set(key, [entry])
      else known.push(entry)
    }
  }
  return byTarget
}

/** Entries of a visit that count. */
export function visitEntries(car: CarState, visitId: VisitId): readonly EntryState[] {
  return [...car.entries.values()].filter(
    (entry) => entry.visitId === visitId && entry.gone === null && entry.on.kind === 'work',
  )
}

/** Null when the weights give nothing to share by. */
function sharesOf(weights: readonly number[]): readonly number[] | null {
  const usable = weights.map((weight) => Math.max(0, weight))
  const sum = usable.reduce((total, weight) => total + weight, 0)
  return sum > 0 ? usable.map((weight) => weight / sum) : null
}

function reworkCause(car: CarState, entry: EntryState, target: WorkTarget): ReworkCause | 'not stated' {
  const record =
    target.kind === 'gate'
      ? car.repairs.get(target.repairId)?.gates[target.gate]
      : car.tasks.get(target.taskId)
  return entry.cause ?? record?.reopened?.cause ?? 'not stated'
}
