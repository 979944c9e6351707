import type { JobTable, TableRow } from './job-table.ts'

/** A finished job of a table. */
export interface Job {
  /** In whatever unit the file has; the same for both. */
  readonly estimate: number
  readonly actual: number
  /** Grows with time; null without a column of dates. */
  readonly time: number | null
  /** '' without a column of groups. */
  readonly group: string
}

/** Column names as a person gave them; where none is given the estimate's and the actual's are looked for. */
export interface ColumnChoice {
  readonly estimate?: string | undefined
  readonly actual?: string | undefined
  readonly date?: string | undefined
  readonly group?: string | undefined
}

export interface JobList {
  readonly jobs: readonly Job[]
  /** Rows without an estimate or actual above 0, or without a date where dates are asked for. */
  readonly skipped: number
}

/** Throws with what to do when a column is not there or holds what it should not. */
export function readJobs(table: JobTable, choice: ColumnChoice): JobList {
  const estimate = columnOf(table, choice.estimate ?? guess(table, 'estimate', /estim/i), 'estimate')
  const actual = columnOf(table, choice.actual ?? guess(table, 'actual', /actual/i), 'actual')
  const date = choice.date === undefined ? null : columnOf(table, choice.date, 'date')
  const group = choice.group === undefined ? null : columnOf(table, choice.group, 'group')
  const readTime = date === null ? null : timeReader(table, date)
  const jobs = table.rows.flatMap((row) => {
    const [estimated, worked] = [numberAt(table, row, estimate), numberAt(table, row, actual)]
    const time = readTime === null ? null : readTime(row)
    if (!(estimated > 0 && worked > 0) || Number.isNaN(time)) return []
    return [
      { estimate: estimated, actual: worked, time, group: group === null ? '' : (row.cells[group] ?? '') },
    ]
  })
  return { jobs, skipped: table.rows.length - jobs.length }
}

function columnOf({ columns }: JobTable, name: string, option: string): number {
  const exact = columns.indexOf(name)
  const found =
    exact >= 0 ? exact : columns.findIndex((column) => column.toLowerCase() === name.toLowerCase())
  if (found >= 0) return found
  throw new Error(`There is no column '${name}'. Give --${option} one of: ${columns.join(', ')}.`)
}

/** The only column of numbers with such a name; of several the only one that speaks of effort. */
function guess(table: JobTable, option: string, pattern: RegExp): string {
  const named = table.columns.filter((name, at) => pattern.test(name) && isNumeric(table, at))
  const [only, ...others] = named.length > 1 ? named.filter((name) => /effort|hours|time/i.test(name)) : named
  if (only !== undefined && others.length === 0) return only
  const found =
    named.length > 1 ? `Several columns may be the ${option}` : `No column of numbers is called the ${option}`
  throw new Error(`${found}. Say which with --${option}: ${table.columns.join(', ')}.`)
}

function isNumeric({ rows }: JobTable, at: number): boolean {
  const cells = rows.map(({ cells: row }) => row[at] ?? '').filter((cell) => cell !== '')
  return cells.length > 0 && cells.every((cell) => NUMBER.test(cell))
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i

/** NaN where the cell is empty. */
function numberAt(table: JobTable, row: TableRow, at: number): number {
  const cell = row.cells[at] ?? ''
  if (cell === '') return NaN
  if (!NUMBER.test(cell))
    throw new Error(
      `Line ${row.line}, column '${table.columns[at] ?? ''}': '${cell}' is not a number. Write it like 1234.5, or leave it empty.`,
    )
  return Number(cell)
}

/**
 * Dates as year-month-day with '-' or '/', with a time of day or without; or plain numbers such as years. NaN where the cell
 * is empty.
 */
function timeReader(table: JobTable, at: number): (row: TableRow) => number {
  const isNumber = isNumeric(table, at)
  return (row) => {
    const cell = row.cells[at] ?? ''
    if (cell === '') return NaN
    const [, year, month, day, rest = ''] =
      /^(\d{4})[-/](\d{1,2})[-/](\d{1,2})(?:[T ](.+))?$/.exec(cell) ?? []
    const time = isNumber
      ? Number(cell)
      : Date.parse(`${year}-${pad(month)}-${pad(day)}T${rest === '' ? '00:00Z' : rest}`)
    if (!Number.isNaN(time)) return time
    throw new Error(
      `Line ${row.line}, column '${table.columns[at] ?? ''}': '${cell}' is not a date that can be read for certain. Write it as 2026-11-25.`,
    )
  }
}

const pad = (digits: string | undefined): string => (digits ?? '').padStart(2, '0')
