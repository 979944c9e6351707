import { eq, isNull, sql } from 'drizzle-orm'
import type { CarState, EntryState } from '../domain/car.ts'
import type { Fact } from '../domain/facts.ts'
import { placeFacts } from '../domain/facts/place-facts.ts'
import type { CarId, EntryId } from '../domain/ids.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import {
  bookingsOf,
  carToRow,
  carToRows,
  entryToRow,
  workshopToRows,
  type DerivedRows,
  type EntryRow,
} from './derived-rows.ts'
import { addFinished, deriveFinished, dropFinished, readFinishedRows } from './finished-rows.ts'
import { perHandle, type Handle } from './handle.ts'
import {
  addSearched,
  deriveSearched,
  dropAllSearched,
  dropSearched,
  readSearchedRows,
} from './searched-rows.ts'
import { placeholders, placeholdersToSet } from './placeholders.ts'
import { markTaken } from './kept-plans.ts'
import {
  attachment,
  booking,
  carTable,
  finishedRepair,
  plannedAmount,
  report,
  timeEntry,
  varianceDay,
  varianceSum,
  varianceVisit,
} from './schema.ts'

/**
 * Brings the derived rows of a car up to date with the facts that it has just taken in. Must run inside the transaction
 * that adds them.
 *
 * @throws SqliteError (constraint) when an id or a shell number belongs to something else already
 */
export function deriveCar(writer: Handle, car: CarState, facts: readonly Fact[]): void {
  const revision = facts.at(-1)?.number ?? car.revision
  if (isReachingBack(facts)) return replaceCar(writer, car, revision)
  const { addCar, changeCar, dropBookings, addBooking } = queries(writer)
  const isNew = facts.some((fact) => fact.kind === 'carAdded')
  if (isNew) addCar.run(carToRow(car, revision))
  else changeCar.run(carToRow(car, revision))
  if (facts.some(({ kind }) => kind in placeFacts || kind === 'visitStatusSet')) {
    dropBookings.run({ carId: car.id })
    for (const row of bookingsOf(car)) addBooking.run(row)
  }
  for (const fact of facts) {
    deriveEntries(writer, car.entries, fact, car.id)
    deriveFiles(writer, fact, car.id)
  }
  deriveFinished(writer, car, facts)
  deriveSearched(writer, car, facts)
}

/** The same for the workshop itself: its time entries, and which of the kept plans was taken. */
export function deriveWorkshop(writer: Handle, workshop: WorkshopState, facts: readonly Fact[]): void {
  if (isReachingBack(facts)) {
    queries(writer).dropWorkshopEntries.run()
    return addRows(writer, workshopToRows(workshop))
  }
  for (const fact of facts) {
    deriveEntries(writer, workshop.entries, fact, null)
    if (fact.kind === 'planTaken') markTaken(writer, fact.payload.planId, Date.parse(fact.recorded))
  }
}

/** True when a fact changes what earlier ones left in the tables, so that a state is folded and its rows are made anew. */
export function isReachingBack(facts: readonly Fact[]): boolean {
  return facts.some((fact) => fact.kind === 'factVoided' || fact.kind === 'carBroughtIn')
}

/** Empties every derived table. */
export function dropDerived(handle: Handle): void {
  const ofJournal = [carTable, booking, timeEntry, attachment, report, finishedRepair]
  const ofVariance = [plannedAmount, varianceSum, varianceVisit, varianceDay]
  for (const table of [...ofJournal, ...ofVariance]) handle.orm.delete(table).run()
  dropAllSearched(handle)
}

/** Adds the rows of a car, or of the workshop, that has none yet. @throws SqliteError when an id or a shell number is taken */
export function addRows(writer: Handle, rows: DerivedRows): void {
  const { addCar, addBooking, addEntry, addAttachment, addReport } = queries(writer)
  for (const row of rows.cars) addCar.run(row)
  for (const row of rows.bookings) addBooking.run(row)
  for (const row of rows.entries) addEntry.run(row)
  for (const row of rows.attachments) addAttachment.run(row)
  for (const row of rows.reports) addReport.run(row)
  addFinished(writer, rows.repairs)
  for (const car of rows.cars) addSearched(writer, car, rows.searched)
}

/** Everything that the derived tables hold, in order of ids. */
export function readDerived({ orm }: Handle): DerivedRows {
  return {
    cars: orm.select().from(carTable).orderBy(carTable.id).all(),
    bookings: orm.select().from(booking).orderBy(booking.id).all(),
    entries: orm.select().from(timeEntry).orderBy(timeEntry.id).all(),
    attachments: orm.select().from(attachment).orderBy(attachment.id).all(),
    reports: orm.select().from(report).orderBy(report.id).all(),
    repairs: readFinishedRows({ orm }),
    searched: readSearchedRows({ orm }),
  }
}

/** A void reaches back anywhere: all rows of the car are made anew. */
function replaceCar(writer: Handle, car: CarState, revision: number): void {
  const { dropCar, dropBookings, dropEntries, dropAttachments, dropReports } = queries(writer)
  for (const drop of [dropCar, dropBookings, dropEntries, dropAttachments, dropReports])
    drop.run({ carId: car.id })
  dropFinished(writer, car.id)
  dropSearched(writer, car.id)
  addRows(writer, carToRows(car, revision))
}

function deriveFiles(writer: Handle, fact: Fact, carId: CarId): void {
  if (fact.kind === 'photoAttached') {
    const { attachmentId: id, sha256 } = fact.payload
    queries(writer).addAttachment.run({ id, carId, sha256 })
  }
  if (fact.kind === 'reportIssued') {
    const { reportId: id, visitId, week, sha256, page } = fact.payload
    queries(writer).addReport.run({ id, carId, visitId, week, sha256, page })
  }
}

function deriveEntries(
  writer: Handle,
  entries: ReadonlyMap<EntryId, EntryState>,
  fact: Fact,
  carId: CarId | null,
): void {
  const { addEntry, changeEntry, dropEntry } = queries(writer)
  switch (fact.kind) {
    case 'clockStarted':
    case 'timeLogged':
      addEntry.run(rowOf(entries, fact.payload.entryId, carId))
      return
    case 'clockStopped':
    case 'clockConfirmed':
      changeEntry.run(rowOf(entries, fact.payload.entryId, carId))
      return
    case 'timeCorrected':
      dropEntry.run({ id: fact.payload.replaces })
      addEntry.run(rowOf(entries, fact.payload.entryId, carId))
      return
    default:
      return
  }
}

function rowOf(entries: ReadonlyMap<EntryId, EntryState>, id: EntryId, carId: CarId | null): EntryRow {
  const entry = entries.get(id)
  if (!entry) throw new Error(`A fact names the time entry ${id}, which was never made.`)
  return entryToRow(entry, carId)
}

const queries = perHandle(({ orm }) => ({
  addCar: orm.insert(carTable).values(placeholders(carTable)).prepare(),
  changeCar: orm
    .update(carTable)
    .set(placeholdersToSet(carTable))
    .where(eq(carTable.id, sql.placeholder('id')))
    .prepare(),
  addBooking: orm.insert(booking).values(placeholders(booking)).prepare(),
  addEntry: orm.insert(timeEntry).values(placeholders(timeEntry)).prepare(),
  changeEntry: orm
    .update(timeEntry)
    .set(placeholdersToSet(timeEntry))
    .where(eq(timeEntry.id, sql.placeholder('id')))
    .prepare(),
  dropEntry: orm
    .delete(timeEntry)
    .where(eq(timeEntry.id, sql.placeholder('id')))
    .prepare(),
  addAttachment: orm.insert(attachment).values(placeholders(attachment)).prepare(),
  addReport: orm.insert(report).values(placeholders(report)).prepare(),
  dropBookings: orm
    .delete(booking)
    .where(eq(booking.carId, sql.placeholder('carId')))
    .prepare(),
  dropCar: orm
    .delete(carTable)
    .where(eq(carTable.id, sql.placeholder('carId')))
    .prepare(),
  dropEntries: orm
    .delete(timeEntry)
    .where(eq(timeEntry.carId, sql.placeholder('carId')))
    .prepare(),
  dropAttachments: orm
    .delete(attachment)
    .where(eq(attachment.carId, sql.placeholder('carId')))
    .prepare(),
  dropReports: orm
    .delete(report)
    .where(eq(report.carId, sql.placeholder('carId')))
    .prepare(),
  dropWorkshopEntries: orm.delete(timeEntry).where(isNull(timeEntry.carId)).prepare(),
}))
