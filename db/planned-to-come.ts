import type { CarId } from '../domain/ids.ts'
import type { DayPlan } from '../domain/value/day-plan.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import { readWorkshop } from './reads.ts'
import { varianceDay } from './schema.ts'
import { type DayRow, rowToDay } from './variance-rows.ts'
import { columnsAs } from './variance-statements.ts'

/**
 * The planned days of all visits after a local date. Those of a car are kept in memory until its next fact or the next plan
 * that is taken: they are some hundred for each car in work.
 */
export function plannedToCome(db: ReadDatabase, today: string): readonly DayPlan[] {
  const { carsAfter } = queries(db.reader)
  const plan = readWorkshop(db).planTaken?.planId ?? ''
  const kept = keptDays(db.reader)
  const fresh = new Map<CarId, KeptDays>()
  for (const { carId, revision } of carsAfter.all({ today }) as readonly CarAfter[]) {
    const state = `${revision} ${plan}`
    const known = kept.days.get(carId)
    fresh.set(carId, known?.state === state ? known : { state, days: readDays(db, carId) })
  }
  kept.days = fresh
  return [...fresh.values()].flatMap(({ days }) => days.filter(({ date }) => date > today))
}

interface CarAfter {
  readonly carId: CarId
  readonly revision: number
}

interface KeptDays {
  /** Number of the car's last fact, and the plan in force. */
  readonly state: string
  readonly days: readonly DayPlan[]
}

const keptDays = perHandle((): { days: ReadonlyMap<CarId, KeptDays> } => ({ days: new Map() }))

const readDays = (db: ReadDatabase, carId: CarId): readonly DayPlan[] =>
  (queries(db.reader).daysOfCar.all({ carId }) as readonly DayRow[]).map(rowToDay)

const queries = perHandle(({ sqlite }) => ({
  // Left to itself SQLite walks through the days of all cars, as these lie in order of cars.
  carsAfter: sqlite.prepare(
    `SELECT DISTINCT car_id AS carId, car.revision AS revision
     FROM variance_day INDEXED BY variance_day_by_date JOIN car ON car.id = car_id WHERE date > @today`,
  ),
  daysOfCar: sqlite.prepare(`SELECT ${columnsAs(varianceDay)} FROM variance_day WHERE car_id = @carId`),
}))
