import { type Grade, GRADES } from '../facts/shapes.ts'
import { type Gate, GATES } from '../gates.ts'
import type { TypeId, VisitId } from '../ids.ts'
import type { FinishedRepair } from './finished-repair.ts'
import type { GateHours } from './repair-hours.ts'
import { isPricedAgain } from './work-point.ts'

/**
 * Finished repairs as columns of plain numbers, a row each, in finish order. Their objects lie all over the memory: ten
 * thousand of them take ten times as long to go through.
 */
export interface FinishedTable {
  readonly repairs: readonly FinishedRepair[]
  readonly columns: Columns
  readonly names: Names
}

interface Columns {
  /** Their places among the names. */
  readonly type: Int32Array
  /** The visit: each may find another car. */
  readonly car: Int32Array
  /** Places in GRADES; UNGRADED where nobody has said. */
  readonly outside: Int8Array
  readonly worstHidden: Int8Array
  /** 1 for yes. */
  readonly hidesNothing: Uint8Array
  readonly taken: Uint8Array
  readonly pricedAgain: Uint8Array
  /** Person-hours, ROW_HOURS each row; {@link placesOf} says where. */
  readonly hours: Float64Array
}

export const UNGRADED = -1

/** Types and cars in the order in which they were met. Tables that take rows from each other share them, and only add. */
interface Names {
  readonly types: Map<TypeId | null, number>
  readonly cars: Map<VisitId, number>
}

const FIGURES: readonly (keyof GateHours)[] = ['before', 'assessed', 'actual', 'rework']
const ROW_HOURS = FIGURES.length * GATES.length

/**
 * @param repairs in finish order
 * @param near a table of mostly the same rows, whose numbers are taken over: they are the same as if made anew
 */
export function finishedTable(repairs: readonly FinishedRepair[], near: FinishedTable | null): FinishedTable {
  if (near !== null && sameRun(repairs, 0, near.repairs, 0) === repairs.length)
    return { ...near, repairs, columns: firstRows(near.columns, repairs.length) }
  const names = near?.names ?? { types: new Map(), cars: new Map() }
  const table = { repairs, columns: createColumns(repairs.length), names }
  const known = near?.repairs ?? []
  let [row, at] = [0, 0]
  while (row < repairs.length) {
    const same = sameRun(repairs, row, known, at)
    if (near !== null && same > 0) copyRows(near.columns, at, table.columns, row, same)
    row += same
    at += same
    const [next, old] = [repairs[row], known[at]]
    if (next === undefined) break
    if (old !== undefined && old.finished.number < next.finished.number) at += 1
    else {
      fillRow(table, row, next)
      row += 1
      if (old?.finished.number === next.finished.number) at += 1
    }
  }
  return table
}

function sameRun(
  repairs: readonly FinishedRepair[],
  row: number,
  known: readonly FinishedRepair[],
  at: number,
): number {
  const most = Math.min(repairs.length - row, known.length - at)
  let same = 0
  while (same < most && repairs[row + same] === known[at + same]) same += 1
  return same
}

function createColumns(rows: number): Columns {
  return {
    type: new Int32Array(rows),
    car: new Int32Array(rows),
    outside: new Int8Array(rows),
    worstHidden: new Int8Array(rows),
    hidesNothing: new Uint8Array(rows),
    taken: new Uint8Array(rows),
    pricedAgain: new Uint8Array(rows),
    hours: new Float64Array(rows * ROW_HOURS),
  }
}

function copyRows(from: Columns, at: number, to: Columns, row: number, count: number): void {
  for (const column of Object.keys(to) as (keyof Columns)[]) {
    const width = column === 'hours' ? ROW_HOURS : 1
    to[column].set(from[column].subarray(at * width, (at + count) * width), row * width)
  }
}

/** Views of the same numbers, which take no memory of their own. */
function firstRows(columns: Columns, count: number): Columns {
  const { type, car, outside, worstHidden, hidesNothing, taken, pricedAgain, hours } = columns
  return {
    type: type.subarray(0, count),
    car: car.subarray(0, count),
    outside: outside.subarray(0, count),
    worstHidden: worstHidden.subarray(0, count),
    hidesNothing: hidesNothing.subarray(0, count),
    taken: taken.subarray(0, count),
    pricedAgain: pricedAgain.subarray(0, count),
    hours: hours.subarray(0, count * ROW_HOURS),
  }
}

function fillRow({ columns, names }: FinishedTable, row: number, repair: FinishedRepair): void {
  const { gates } = repair
  columns.type[row] = placeIn(names.types, repair.typeId)
  columns.car[row] = placeIn(names.cars, repair.visitId)
  columns.outside[row] = stepOf(repair.outside)
  columns.worstHidden[row] = stepOf(repair.worstHidden)
  columns.hidesNothing[row] = Number(repair.hidden.length === 0)
  columns.taken[row] = Number(repair.taken)
  columns.pricedAgain[row] = Number(isPricedAgain(gates))
  for (const figure of FIGURES)
    columns.hours.set(
      GATES.map((gate) => gates[gate][figure]),
      row * ROW_HOURS + FIGURES.indexOf(figure) * GATES.length,
    )
}

function placeIn<Name>(names: Map<Name, number>, name: Name): number {
  const place = names.get(name) ?? names.size
  names.set(name, place)
  return place
}

const stepOf = (grade: Grade | null): number => (grade === null ? UNGRADED : GRADES.indexOf(grade))

/** Rows numbered by what a column says of them, in the order in which that is met first. */
export interface Grouped {
  readonly groups: number
  /** By row of the table; rows that were not asked for are in group 0. */
  readonly groupOf: Int32Array
}

/** The same for the same rows, whatever names other tables have added. */
export function groupedBy(column: Int32Array, rows: Int32Array): Grouped {
  const groupOf = new Int32Array(column.length)
  const known = new Int32Array(1 + column.reduce((most, place) => Math.max(most, place), 0)).fill(-1)
  let groups = 0
  for (const row of rows) {
    const place = column[row] as number
    if (known[place] === -1) known[place] = groups++
    groupOf[row] = known[place] as number
  }
  return { groups, groupOf }
}

export interface TypeRows {
  readonly typeId: TypeId | null
  /** In finish order. */
  readonly rows: Int32Array
}

/** Rows by type, the types in the order of the first row of each. */
export function rowsByType({ columns, names }: FinishedTable, rows: Int32Array): readonly TypeRows[] {
  const ids = [...names.types.keys()]
  const { groups, groupOf } = groupedBy(columns.type, rows)
  const byGroup: number[][] = Array.from({ length: groups }, () => [])
  for (const row of rows) byGroup[groupOf[row] as number]?.push(row)
  return byGroup.map((own) => ({
    typeId: ids[columns.type[own[0] as number] as number] ?? null,
    rows: Int32Array.from(own),
  }))
}

export function rowsWhere({ repairs }: FinishedTable, isMeant: (row: number) => boolean): Int32Array {
  const rows: number[] = []
  for (let row = 0; row < repairs.length; row += 1) if (isMeant(row)) rows.push(row)
  return Int32Array.from(rows)
}

/** Where a figure of some gates stands in the hours of a row. */
export const placesOf = (figure: keyof GateHours, gates: readonly Gate[]): readonly number[] =>
  gates.map((gate) => FIGURES.indexOf(figure) * GATES.length + GATES.indexOf(gate))

/** Person-hours of a row at such places. */
export function sumAt({ columns: { hours } }: FinishedTable, row: number, places: readonly number[]): number {
  const from = row * ROW_HOURS
  let sum = 0
  for (const place of places) sum += hours[from + place] as number
  return sum
}
