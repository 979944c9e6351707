import type { CarState, EntryState } from '../domain/car.ts'
import type { CarId } from '../domain/ids.ts'
import { isElsewhere } from '../domain/value/own-visits.ts'
import { restingCar } from '../domain/views/resting-car.ts'
import { searchedTexts, type SearchedText } from '../domain/views/searched-texts.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import { type FinishedRow, finishedRows } from './finished-rows.ts'
import type { attachment, booking, carTable, report, timeEntry } from './schema.ts'

export type CarRow = typeof carTable.$inferSelect
export type BookingRow = typeof booking.$inferSelect
export type EntryRow = typeof timeEntry.$inferSelect
export type AttachmentRow = typeof attachment.$inferSelect
export type ReportRow = typeof report.$inferSelect

/** What the derived tables hold of one car, or of the workshop itself. */
export interface DerivedRows {
  readonly cars: readonly CarRow[]
  readonly bookings: readonly BookingRow[]
  readonly entries: readonly EntryRow[]
  readonly attachments: readonly AttachmentRow[]
  readonly reports: readonly ReportRow[]
  /** Finished ones. */
  readonly repairs: readonly FinishedRow[]
  readonly searched: readonly SearchedText[]
}

/** @param revision number of the last line in the car's chain */
export function carToRows(car: CarState, revision: number): DerivedRows {
  const carId = car.id
  return {
    cars: [carToRow(car, revision)],
    bookings: bookingsOf(car),
    entries: entriesOf(workedHere(car), carId),
    attachments: [...car.attachments.values()].map(({ id, sha256 }) => ({ id, carId, sha256 })),
    reports: reportsOf(car),
    repairs: finishedRows(car),
    searched: searchedTexts(car),
  }
}

function reportsOf(car: CarState): readonly ReportRow[] {
  const reports = [...car.reports.values()]
  return reports.map(({ id, visitId, week, sha256, page }) => ({
    id,
    carId: car.id,
    visitId,
    week,
    sha256,
    page,
  }))
}

/** Who worked in another workshop overlaps with nothing here. */
const workedHere = (car: CarState): readonly EntryState[] =>
  [...car.entries.values()].filter(({ visitId }) => !isElsewhere(car, visitId))

/** Time that was logged on the workshop itself is all that the tables hold of it. */
export function workshopToRows(workshop: WorkshopState): DerivedRows {
  const entries = entriesOf(workshop.entries.values(), null)
  return { cars: [], bookings: [], entries, attachments: [], reports: [], repairs: [], searched: [] }
}

/** A car in the list of cars. @param revision number of the last line in its chain */
export function carToRow(car: CarState, revision: number): CarRow {
  const { id, shellNumber, name, standing } = car
  const resting = restingCar(car)
  const restsUntil = resting?.until ?? null
  const brief = resting && JSON.stringify(resting)
  return { id, shellNumber, name, revision, bayId: standing?.bayId ?? null, restsUntil, brief }
}

/** Its bookings that stand. */
export function bookingsOf(car: CarState): readonly BookingRow[] {
  return [...car.bookings.values()]
    .filter((each) => each.cancelled === null)
    .map(({ id, bayId, from, to }) => ({ id, carId: car.id, bayId, from, to }))
}

/**
 * Hours that have a day but no times get that day in UTC, whatever the workshop's zone: these rows choose which entries
 * are looked at, with a day to spare on both sides; what overlaps is decided on the entries themselves.
 */
export function entryToRow(entry: EntryState, carId: CarId | null): EntryRow {
  return { id: entry.id, personId: entry.personId, carId, ...spanOf(entry.time) }
}

function entriesOf(entries: Iterable<EntryState>, carId: CarId | null): readonly EntryRow[] {
  return [...entries].filter((entry) => entry.gone === null).map((entry) => entryToRow(entry, carId))
}

/** A running clock has no end yet: the last moment that a date can hold (ECMA-262, time values). */
export const NO_END = 8_640_000_000_000_000
const MS_PER_DAY = 86_400_000

function spanOf(time: EntryState['time']): Pick<EntryRow, 'started' | 'ended'> {
  switch (time.kind) {
    case 'running':
      return { started: Date.parse(time.start), ended: NO_END }
    case 'span':
      return { started: Date.parse(time.start), ended: Date.parse(time.end) }
    case 'day':
      return { started: Date.parse(time.date), ended: Date.parse(time.date) + MS_PER_DAY }
  }
}
