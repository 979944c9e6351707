import { and, eq, gt, isNull, lt, sql } from 'drizzle-orm'
import type { CarState, EntryState, Moment } from '../domain/car.ts'
import type { Command } from '../domain/commands/command-shapes.ts'
import { isNeededFor } from '../domain/commands/erased-contact.ts'
import type { DecideContext, Others, PlanToTake } from '../domain/commands/decide.ts'
import type { BayId, CarId, DeviceId, EntryId, PersonId } from '../domain/ids.ts'
import type { Database } from './database.ts'
import { currentHistory } from './finished-repairs.ts'
import { perHandle, type Handle } from './handle.ts'
import { chainOf, factsAfter } from './chains.ts'
import { photoRowOn } from './photo-rows.ts'
import { planToTake } from './kept-plans.ts'
import { booking, carTable, timeEntry } from './schema.ts'
import { carAt, currentCar, currentWorkshop } from './state-cache.ts'

/** Who and what brings a command; `now` is the host's clock in epoch milliseconds. */
export interface CommandRequest {
  /** Its codes have been checked by the caller, as the table of permissions asks. */
  readonly command: Command
  readonly device: DeviceId | null
  /** The second signer, when their code was checked too. */
  readonly second: PersonId | null
  readonly now: Moment
}

/** Everything that a command is decided from. Must run inside the transaction that records it. */
export function gatherContext(db: Database, { command, device, second, now }: CommandRequest): DecideContext {
  const { writer, cache } = db
  const happened = command.happened === null ? now : Date.parse(command.happened)
  const named = (command.payload ?? {}) as Named
  const carId = command.kind === 'addCar' ? idOf<CarId>(named.carId) : command.carId
  return {
    now,
    happened,
    by: command.by,
    second,
    device,
    workshop: currentWorkshop(writer, cache),
    car: carId === null ? null : currentCar(writer, cache, carId),
    others: gatherOthers(db, command, named, happened),
    keptPlan: command.kind === 'takePlan' ? findPlan(writer, named.planId) : null,
    learned: STATES_BANDS.has(command.kind) ? currentHistory(writer, cache) : null,
    namedBy: command.kind === 'eraseContact' ? carsNaming(db, named.id) : [],
    history: command.kind === 'voidFact' ? factsAfter(writer, chainOf(command.carId), 0) : [],
  }
}

const STATES_BANDS: ReadonlySet<Command['kind']> = new Set<Command['kind']>([
  'acceptEstimate',
  'reviewEstimate',
])

/** What a payload may name, before the domain has parsed it. */
interface Named {
  readonly carId?: unknown
  readonly personId?: unknown
  readonly entryId?: unknown
  readonly replaces?: unknown
  readonly sha256?: unknown
  readonly planId?: unknown
  readonly id?: unknown
  readonly photo?: { readonly sha256?: unknown } | null
  readonly start?: unknown
  readonly end?: unknown
  readonly time?: { readonly start?: unknown; readonly end?: unknown; readonly date?: unknown } | null
}

function gatherOthers(db: Database, command: Command, named: Named, happened: Moment): Others {
  const cars = queries(db.writer).cars.all()
  const standing = cars.filter((car) => car.id !== command.carId).flatMap(({ id, bayId }) => pair(id, bayId))
  return {
    shellNumbers: new Map(cars.map(({ id, shellNumber }) => [shellNumber, id])),
    carNames: new Map(cars.map(({ id, name }) => [id, name])),
    bookings: queries(db.writer).bookings.all(),
    standing: new Map(standing),
    entries: gatherEntries(db, command, named, happened),
    knownPhotos: new Set([named.sha256, named.photo?.sha256].flatMap((sha256) => knownPhoto(db, sha256))),
  }
}

/** Resting cars need nobody any more. */
function carsNaming({ writer, cache }: Database, id: unknown): readonly CarState[] {
  if (typeof id !== 'string') return []
  return queries(writer)
    .inHand.all()
    .map((car) => carAt(writer, cache, car.id, car.revision))
    .filter((car) => isNeededFor(car, id))
}

function findPlan(writer: Handle, planId: unknown): PlanToTake | null {
  return typeof planId === 'string' ? planToTake(writer, planId) : null
}

function pair(id: CarId, bayId: BayId | null): readonly (readonly [CarId, BayId])[] {
  return bayId === null ? [] : [[id, bayId]]
}

/** Wide enough for every entry that shares a local day with the named times, in any zone. */
const MARGIN_MS = 2 * 86_400_000

/** Entries that count, of the person whose time the command is about, from two days before to two days after it. */
function gatherEntries(
  db: Database,
  command: Command,
  named: Named,
  happened: Moment,
): readonly EntryState[] {
  const known = [named.entryId, named.replaces].flatMap((id) => rowById(db, id))
  const personId = idOf<PersonId>(named.personId) ?? known[0]?.personId ?? command.by
  if (personId === null) return []
  const stated = [named.start, named.end, named.time?.start, named.time?.end, named.time?.date]
    .flatMap(momentOf)
    .concat(known.map(({ started }) => started))
  const times = named.time ? stated : [happened, ...stated]
  const from = Math.min(...times) - MARGIN_MS
  const to = Math.max(...times) + MARGIN_MS
  return queries(db.writer)
    .entries.all({ personId, from, to })
    .flatMap(({ id, carId }) => entryById(db, id, carId))
}

function rowById(db: Database, id: unknown) {
  const row = typeof id === 'string' ? queries(db.writer).entry.get({ id }) : undefined
  return row ? [row] : []
}

function entryById({ writer, cache }: Database, id: EntryId, carId: CarId | null): readonly EntryState[] {
  const holder = carId === null ? currentWorkshop(writer, cache) : currentCar(writer, cache, carId)
  const entry = holder?.entries.get(id)
  return entry ? [entry] : []
}

function knownPhoto({ writer }: Database, sha256: unknown): readonly string[] {
  return typeof sha256 === 'string' && photoRowOn(writer, sha256) !== null ? [sha256] : []
}

/** An id to look for; whether it is one of ours, the domain decides. */
function idOf<Id extends string>(value: unknown): Id | null {
  return typeof value === 'string' ? (value as Id) : null
}

function momentOf(value: unknown): readonly Moment[] {
  const moment = typeof value === 'string' ? Date.parse(value) : Number.NaN
  return Number.isNaN(moment) ? [] : [moment]
}

const queries = perHandle(({ orm }) => ({
  cars: orm
    .select({
      id: carTable.id,
      shellNumber: carTable.shellNumber,
      name: carTable.name,
      bayId: carTable.bayId,
    })
    .from(carTable)
    .prepare(),
  inHand: orm
    .select({ id: carTable.id, revision: carTable.revision })
    .from(carTable)
    .where(isNull(carTable.restsUntil))
    .prepare(),
  bookings: orm
    .select({
      bookingId: booking.id,
      carId: booking.carId,
      bayId: booking.bayId,
      from: booking.from,
      to: booking.to,
    })
    .from(booking)
    .prepare(),
  entry: orm
    .select({ personId: timeEntry.personId, started: timeEntry.started })
    .from(timeEntry)
    .where(eq(timeEntry.id, sql.placeholder('id')))
    .prepare(),
  entries: orm
    .select({ id: timeEntry.id, carId: timeEntry.carId })
    .from(timeEntry)
    .where(
      and(
        eq(timeEntry.personId, sql.placeholder('personId')),
        gt(timeEntry.ended, sql.placeholder('from')),
        lt(timeEntry.started, sql.placeholder('to')),
      ),
    )
    .prepare(),
}))
