import { asc, eq, gt, sql } from 'drizzle-orm'
import type { CarState, Moment } from '../domain/car.ts'
import type { CarId, VisitId } from '../domain/ids.ts'
import type { RestingCar, VisitSpan } from '../domain/views/resting-car.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import { carTable } from './schema.ts'
import { carAt, carOnce, currentCar, currentWorkshop, restingAt } from './state-cache.ts'

/** A car as it stands after the last fact that was recorded; null when there is none with that id. */
export function readCar(db: ReadDatabase, carId: CarId): CarState | null {
  return currentCar(db.reader, db.cache, carId)
}

/**
 * Every car as it stood when the first was asked for, one after the other in order of shell numbers, for what goes out as a
 * file and never for a screen: ten years take seconds. None is kept, so that whoever takes them one by one holds one: each is
 * good until something else is done.
 */
export function* eachCar({ reader, cache }: ReadDatabase): Generator<CarState, void, undefined> {
  for (const { id, revision } of queries(reader).all.all()) yield carOnce(reader, cache, id, revision)
}

/** The same all at once, for small workshops: 500 cars take 400 MB. */
export function readAllCars(db: ReadDatabase): readonly CarState[] {
  return [...eachCar(db)]
}

/** Whether there is a car with that id; none is folded for it. */
export function hasCar({ reader }: ReadDatabase, carId: CarId): boolean {
  return queries(reader).isCar.get({ carId }) !== undefined
}

/**
 * Cars that do not rest, and resting ones with hours or a photo of `since` or later: all that views of today tell of. In
 * order of shell numbers. Null takes in no resting ones.
 */
export function readCarsOfToday(db: ReadDatabase, since: Moment | null): readonly CarState[] {
  const rows = queries(db.reader).ofToday.all({ since: since ?? Number.MAX_SAFE_INTEGER })
  return states(db, rows as readonly CarRevision[])
}

/** All cars that rest, in short; no car is folded for it. */
export function readRestingCars(db: ReadDatabase): readonly RestingCar[] {
  return restingAt(db.reader, db.cache)
}

/** Whether any car rests; none is read for it. */
export function hasRestingCars({ reader }: ReadDatabase): boolean {
  return queries(reader).resting.get() !== undefined
}

/** Cars that do not rest, and those of the resting ones that are chosen by what is known of them in short. */
export function readCarsWith(
  db: ReadDatabase,
  isChosen: (resting: RestingCar) => boolean,
): readonly CarState[] {
  const chosen = new Set(readRestingCars(db).flatMap((car) => (isChosen(car) ? [car.header.id] : [])))
  const rows = queries(db.reader).marked.all()
  return states(
    db,
    rows.filter(({ id, restsUntil }) => restsUntil === null || chosen.has(id)),
  )
}

/** Cars that do not rest, and those resting ones that the latest `most` answers of resting cars were given on. */
export function readCarsOfAnswers(db: ReadDatabase, most: number): readonly CarState[] {
  const answers = readRestingCars(db).flatMap(({ answered }) => answered)
  const least = answers.toSorted((a, b) => b - a)[most - 1] ?? Number.NEGATIVE_INFINITY
  return readCarsWith(db, ({ answered }) => answered.some((at) => at >= least))
}

/** Cars that do not rest, and resting ones with a visit that the choice falls on. */
export function readCarsOfVisits(
  db: ReadDatabase,
  isChosen: (visit: VisitSpan) => boolean,
): readonly CarState[] {
  return readCarsWith(db, ({ visits }) => visits.some(isChosen))
}

/** The car whose visit it is; null where nobody knows it. */
export function readCarOfVisit(db: ReadDatabase, visitId: VisitId): CarState | null {
  const hasVisit = ({ visits }: CarState): boolean => visits.has(visitId)
  return (
    readCarsOfToday(db, null).find(hasVisit) ??
    readCarsOfVisits(db, ({ id }) => id === visitId).find(hasVisit) ??
    null
  )
}

/** Every car's id and name, in the order in which they were added. */
export function readCarNames(db: ReadDatabase): readonly { readonly id: CarId; readonly name: string }[] {
  return queries(db.reader).names.all() as { id: CarId; name: string }[]
}

/** Cars with facts above journal number `number`. */
export function carsChangedSince(
  db: ReadDatabase,
  number: number,
): readonly { readonly id: CarId; readonly name: string }[] {
  return queries(db.reader).changed.all({ number })
}

/** The workshop as it stands; without facts it is not set up. */
export function readWorkshop(db: ReadDatabase): WorkshopState {
  return currentWorkshop(db.reader, db.cache)
}

interface CarRevision {
  readonly id: CarId
  readonly revision: number
}

const states = ({ reader, cache }: ReadDatabase, rows: readonly CarRevision[]): readonly CarState[] =>
  rows.map(({ id, revision }) => carAt(reader, cache, id, revision))

const queries = perHandle(({ orm, sqlite }) => ({
  all: orm
    .select({ id: carTable.id, revision: carTable.revision })
    .from(carTable)
    .orderBy(carTable.shellNumber)
    .prepare(),
  // Left to itself SQLite goes through all cars in the order of their shell numbers.
  ofToday: sqlite.prepare(
    `SELECT id, revision, shell_number FROM car INDEXED BY car_by_rest WHERE rests_until IS NULL
     UNION ALL SELECT id, revision, shell_number FROM car INDEXED BY car_by_rest WHERE rests_until >= @since ORDER BY shell_number`,
  ),
  resting: sqlite.prepare('SELECT id FROM car INDEXED BY car_by_rest WHERE rests_until IS NOT NULL LIMIT 1'),
  marked: orm
    .select({ id: carTable.id, revision: carTable.revision, restsUntil: carTable.restsUntil })
    .from(carTable)
    .orderBy(carTable.shellNumber)
    .prepare(),
  changed: orm
    .select({ id: carTable.id, name: carTable.name })
    .from(carTable)
    .where(gt(carTable.revision, sql.placeholder('number')))
    .orderBy(asc(carTable.shellNumber))
    .prepare(),
  names: sqlite.prepare(
    `SELECT id, name FROM car CROSS JOIN journal ON chain = id AND chain_number = 1 ORDER BY number`,
  ),
  isCar: orm
    .select({ id: carTable.id })
    .from(carTable)
    .where(eq(carTable.id, sql.placeholder('carId')))
    .prepare(),
}))
