import { eq, sql } from 'drizzle-orm'
import type { CarState } from '../domain/car.ts'
import type { CarId } from '../domain/ids.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import { carTable } from './schema.ts'
import { carAt, currentCar, currentWorkshop } from './state-cache.ts'

/** A car as it stands after the last fact that was recorded; null when there is none with that id. */
export function readCar(db: ReadDatabase, carId: CarId): CarState | null {
  return currentCar(db.reader, db.cache, carId)
}

/** Every car, in order of shell numbers. */
export function readAllCars(db: ReadDatabase): readonly CarState[] {
  const rows = queries(db.reader).all.all()
  return rows.map(({ id, revision }) => carAt(db.reader, db.cache, id, revision))
}

/** The workshop as it stands; without facts it is not set up. */
export function readWorkshop(db: ReadDatabase): WorkshopState {
  return currentWorkshop(db.reader, db.cache)
}

/** The car with that shell number, for those who know a car by what is written on it. */
export function carIdByShellNumber(db: ReadDatabase, shellNumber: string): CarId | null {
  return queries(db.reader).byShellNumber.get({ shellNumber })?.id ?? null
}

const queries = perHandle(({ orm }) => ({
  all: orm
    .select({ id: carTable.id, revision: carTable.revision })
    .from(carTable)
    .orderBy(carTable.shellNumber)
    .prepare(),
  byShellNumber: orm
    .select({ id: carTable.id })
    .from(carTable)
    .where(eq(carTable.shellNumber, sql.placeholder('shellNumber')))
    .prepare(),
}))
