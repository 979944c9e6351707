import type { Moment } from '../domain/car.ts'
import type { CarId } from '../domain/ids.ts'
import { localDateOf } from '../domain/time/zone.ts'
import { runningRows } from '../domain/value/car-variance.ts'
import type { PlannedAmounts } from '../domain/value/planned-days.ts'
import { type ScheduleAt, scheduleAt } from '../domain/value/schedule-plan.ts'
import type { DrillGrouping, VarianceGroup } from '../domain/value/variance-groups.ts'
import type { FiguresDraft, VarianceRow } from '../domain/value/variance-row.ts'
import { VARIANCE_FIGURES } from '../domain/value/variance-row.ts'
import {
  allGroupsNow,
  partsNow,
  type SumsNow,
  type VarianceSums,
  type VisitLabel,
} from '../domain/value/variance-sums.ts'
import { visitName } from '../domain/views/variance-drill.ts'
import { plannedAmounts } from './derive-variance.ts'
import type { ReadDatabase } from './database.ts'
import { NO_END } from './derived-rows.ts'
import { perHandle } from './handle.ts'
import { plannedToCome } from './planned-to-come.ts'
import { readCar, readWorkshop } from './reads.ts'
import { varianceSum } from './schema.ts'
import { columnOf } from './variance-statements.ts'
import { rowToSchedule, type SumRow, type VisitRow } from './variance-rows.ts'

/**
 * The hours of the whole workshop at a moment: sums over the derived rows, less what is planned after today, with what runs
 * on under a clock. Reads the state of a car only where a clock runs on it. Cost: in step with the visits, some 20 ms
 * for 500 cars.
 */
export function readVarianceSums(db: ReadDatabase, at: Moment): VarianceSums {
  const now = sumsNow(db, at)
  const groups = queries(db.reader).sums.all() as readonly FlatGroup[]
  const causes = causesByGroup(queries(db.reader).causes.all() as readonly CauseRow[])
  const kept = Map.groupBy(groups, ({ grouping }) => grouping)
  const toGroups = (rows: readonly FlatGroup[]): readonly VarianceGroup[] =>
    rows.map((row) => toGroup(row, causes.get(`${row.grouping} ${row.key}`)))
  return {
    groups: allGroupsNow(
      new Map([...kept].map(([grouping, rows]) => [grouping, toGroups(rows)] as const)),
      now,
    ),
    visits: readVisitLabels(db, at),
  }
}

/** The parts that the visits have in one figure; the keys are visits. */
export function readVarianceParts(
  db: ReadDatabase,
  { grouping, key }: { readonly grouping: DrillGrouping; readonly key: string },
  at: Moment,
): readonly VarianceGroup[] {
  const parts = queries(db.reader).parts.all({ grouping, key }) as readonly FlatGroup[]
  return partsNow(
    parts.map((row) => toGroup(row)),
    sumsNow(db, at),
    { grouping, key },
  )
}

/** Every visit, in order of shell numbers and as they were opened. */
export function readVisitLabels(db: ReadDatabase, at: Moment): readonly VisitLabel[] {
  const schedule = scheduleAt(at, readWorkshop(db))
  const rows = queries(db.reader).visits.all() as readonly LabelRow[]
  return rows.map((row) => ({
    visitId: row.visitId,
    carId: row.carId,
    name: visitName({ name: row.carName }, row),
    schedule: scheduleOf(row, schedule),
  }))
}

/** The days that each authorised amount of a car is planned on. */
export const readPlannedAmounts = (db: ReadDatabase, carId: CarId): PlannedAmounts =>
  plannedAmounts(db.reader, carId)

function sumsNow(db: ReadDatabase, at: Moment): SumsNow {
  const { zone } = readWorkshop(db)
  const today = localDateOf(at, zone)
  return { toCome: plannedToCome(db, today), running: readRunning(db, at) }
}

function readRunning(db: ReadDatabase, at: Moment): readonly VarianceRow[] {
  const context = { at, workshop: readWorkshop(db) }
  const carIds = queries(db.reader).running.pluck().all() as readonly CarId[]
  return carIds.flatMap((carId) => {
    const car = readCar(db, carId)
    return car === null ? [] : runningRows(car, plannedAmounts(db.reader, carId), context)
  })
}

type LabelRow = Pick<VisitRow, 'visitId' | 'carId' | 'kind' | 'schedule' | 'earnedOfPlanned'> & {
  readonly carName: string
}

function scheduleOf(row: LabelRow, at: ScheduleAt): VisitLabel['schedule'] {
  const plan = rowToSchedule(row)
  return plan === null ? null : at(plan, row.earnedOfPlanned)
}

type FlatGroup = FiguresDraft & { readonly grouping: DrillGrouping; readonly key: string }
type CauseRow = Pick<SumRow, 'grouping' | 'key' | 'causes'>

const NO_CAUSES: VarianceGroup['causes'] = new Map()

const toGroup = (
  { grouping: _, key, ...figures }: FlatGroup,
  causes: VarianceGroup['causes'] = NO_CAUSES,
): VarianceGroup => ({ key, figures, causes })

function causesByGroup(rows: readonly CauseRow[]): ReadonlyMap<string, VarianceGroup['causes']> {
  const byGroup = Map.groupBy(rows, ({ grouping, key }) => `${grouping} ${key}`)
  return new Map([...byGroup].map(([key, own]) => [key, sumCauses(own)] as const))
}

function sumCauses(rows: readonly CauseRow[]): VarianceGroup['causes'] {
  const sums = new Map<Cause, number>()
  for (const { causes } of rows)
    for (const [cause, hours] of Object.entries(JSON.parse(causes) as Record<Cause, number>))
      sums.set(cause as Cause, (sums.get(cause as Cause) ?? 0) + hours)
  return sums
}

type Cause = Parameters<VarianceGroup['causes']['get']>[0]

const queries = perHandle(({ sqlite }) => {
  const figures = VARIANCE_FIGURES.map((figure) => ({ figure, column: columnOf(varianceSum, figure) }))
  const summed = figures.map(({ figure, column }) => `sum(${column}) AS ${figure}`).join(', ')
  const plain = figures.map(({ figure, column }) => `${column} AS ${figure}`).join(', ')
  return {
    sums: sqlite.prepare(
      `SELECT grouped_by AS grouping, key, ${summed} FROM variance_sum GROUP BY grouped_by, key`,
    ),
    // Causes are told of gates and types only.
    causes: sqlite.prepare(
      `SELECT grouped_by AS grouping, key, causes FROM variance_sum
       WHERE grouped_by IN ('gate', 'type') AND rework <> 0`,
    ),
    parts: sqlite.prepare(
      `SELECT grouped_by AS grouping, visit_id AS key, ${plain} FROM variance_sum
       WHERE grouped_by = @grouping AND key = @key`,
    ),
    visits: sqlite.prepare(
      `SELECT visit_id AS visitId, car_id AS carId, kind, schedule, earned_of_planned AS earnedOfPlanned,
         car.name AS carName
       FROM variance_visit JOIN car ON car.id = car_id ORDER BY shell_number, opened`,
    ),
    running: sqlite.prepare(
      `SELECT DISTINCT car_id FROM time_entry WHERE ended = ${NO_END} AND car_id IS NOT NULL`,
    ),
  }
})
