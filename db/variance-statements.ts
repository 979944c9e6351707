import { getTableColumns, getTableName, type Table } from 'drizzle-orm'
import type { Handle } from './handle.ts'
import { plannedAmount, varianceDay, varianceSum, varianceVisit } from './schema.ts'

/**
 * Statements on the tables of the Variance screen, written out: half a hundred rows are made anew for each time entry, and
 * a plain statement takes a tenth of the builder's time. Parameters and rows go by the names of the program.
 */
export function varianceStatements({ sqlite }: Handle) {
  const amounts = columnsAs(plannedAmount)
  return {
    amountsOfCar: sqlite.prepare(`SELECT ${amounts} FROM planned_amount WHERE car_id = @carId`),
    amountsWithoutPlan: sqlite.prepare(`SELECT ${amounts} FROM planned_amount WHERE plan_id IS NULL`),
    putAmount: sqlite.prepare(put(plannedAmount)),
    dropAmount: sqlite.prepare(`DELETE FROM planned_amount WHERE car_id = @carId AND amount_id = @amountId`),
    addSum: sqlite.prepare(put(varianceSum)),
    // An id that a visit of another car has must not put this one in its place: the command that brings it is refused.
    addVisit: sqlite.prepare(put(varianceVisit).replace('REPLACE', 'INSERT')),
    addDay: sqlite.prepare(put(varianceDay)),
    dropSums: sqlite.prepare(`DELETE FROM variance_sum WHERE car_id = @carId`),
    dropVisits: sqlite.prepare(`DELETE FROM variance_visit WHERE car_id = @carId`),
    dropDays: sqlite.prepare(`DELETE FROM variance_day WHERE car_id = @carId`),
  }
}

/** The column that the program knows by this name. */
export const columnOf = (table: Table, name: string): string =>
  getTableColumns(table)[name]?.name ?? raise(`There is no column ${name}.`)

function raise(message: string): never {
  throw new Error(message)
}

/** `car_id AS carId, ...` */
export const columnsAs = (table: Table): string =>
  Object.entries(getTableColumns(table))
    .map(([name, column]) => `${column.name} AS ${name}`)
    .join(', ')

function put(table: Table): string {
  const columns = Object.entries(getTableColumns(table))
  const names = columns.map(([, column]) => column.name).join(', ')
  const values = columns.map(([name]) => `@${name}`).join(', ')
  return `REPLACE INTO ${getTableName(table)} (${names}) VALUES (${values})`
}
