import type { z } from 'zod'
import { ok, refuse, type Result } from '../refusal.ts'
import type { CsvRow } from './parse-csv.ts'

/** How one column of a file is named and read. */
export interface Column<T> {
  readonly name: string
  readonly required: boolean
  /** The trimmed cell; '' where the cell is empty or the column is not in the file. */
  readonly read: (cell: string) => Result<T>
}

/** What is wrong with one line. */
export interface LineProblem {
  readonly line: number
  /** The column's name, or null when the line as a whole is wrong. */
  readonly column: string | null
  readonly message: string
  readonly next: string
}

export type Columns = Readonly<Record<string, Column<unknown>>>

export type RowOf<C extends Columns> = {
  readonly [K in keyof C]: C[K] extends Column<infer T> ? T : never
}

export type ReadLine<R> =
  | { readonly ok: true; readonly line: number; readonly row: R }
  | { readonly ok: false; readonly line: number; readonly problems: readonly LineProblem[] }

/**
 * Reads every line below the line of column names. Names are compared without regard to case, in any order.
 * Refused as a whole: columns that are missing, unknown or there twice. What is wrong in a line is said of that line.
 */
export function readLines<C extends Columns>(
  rows: readonly CsvRow[],
  columns: C,
): Result<readonly ReadLine<RowOf<C>>[]> {
  const [header, ...body] = rows
  if (header === undefined) throw new RangeError('parseCsv gives one row at least')
  const places = placeColumns(header.cells, columns)
  if (!places.ok) return places
  if (body.length === 0) {
    return refuse(
      'bad-input',
      'This file holds only the line of column names.',
      'Add a line for each entry below it.',
    )
  }
  return ok(body.map((row) => readLine(row, header.cells.length, columns, places.value)))
}

/** A cell that must be filled and fits the schema; its first complaint is the problem. */
export function needed<T>(name: string, schema: z.ZodType<T>): Column<T> {
  return {
    name,
    required: true,
    read: (cell) =>
      cell === ''
        ? refuse('bad-input', `The ${name} is missing.`, 'Fill the cell in.')
        : readWith(schema, cell),
  }
}

/** A cell that may be left empty, or a column that may be left out: then `usual` stands. */
export function optional<T>(name: string, usual: T, read: (cell: string) => Result<T>): Column<T> {
  return { name, required: false, read: (cell) => (cell === '' ? ok(usual) : read(cell)) }
}

export function readWith<T>(schema: z.ZodType<T>, cell: unknown): Result<T> {
  const parsed = schema.safeParse(cell)
  if (parsed.success) return ok(parsed.data)
  return refuse('bad-input', parsed.error.issues[0]?.message ?? 'This cannot be read.', 'Change the cell.')
}

/** One of a few words, without regard to case. */
export function oneOf<T extends string>(words: readonly T[]): (cell: string) => Result<T> {
  return (cell) => {
    const found = words.find((word) => word === cell.toLowerCase())
    if (found !== undefined) return ok(found)
    return refuse('bad-input', `'${shortened(cell)}' is not known here.`, `Write ${words.join(', ')}.`)
  }
}

/** Long cells are not repeated whole in a message. */
export function shortened(cell: string): string {
  return cell.length <= 40 ? cell : `${cell.slice(0, 40)} …`
}

/** Index of each column in the file, -1 for one that is not there. */
type Places = ReadonlyMap<string, number>

function placeColumns(header: readonly string[], columns: Columns): Result<Places> {
  const found = header.map((cell) => cell.trim().toLowerCase())
  const known = Object.values(columns)
  const names = known.map((column) => column.name)
  const unknown = found.filter((name) => name !== '' && !names.includes(name))
  const twice = found.filter((name, index) => name !== '' && found.indexOf(name) !== index)
  const missing = known.filter((column) => column.required && !found.includes(column.name))
  if (unknown.length + twice.length + missing.length === 0)
    return ok(new Map(names.map((name) => [name, found.indexOf(name)])))
  const words = [
    list(
      'missing',
      missing.map((column) => column.name),
    ),
    list('unknown', unknown.map(shortened)),
    list('there twice', twice),
  ].filter((each) => each !== '')
  return refuse(
    'bad-input',
    `The columns are not those of this kind of file: ${words.join('; ')}.`,
    `Name the columns in the first line: ${known.map(columnWords).join(', ')}.`,
  )
}

function columnWords(column: Column<unknown>): string {
  return column.required ? column.name : `${column.name} (may be left out)`
}

function list(what: string, names: readonly string[]): string {
  return names.length === 0 ? '' : `${what} ${names.map((name) => `'${name}'`).join(', ')}`
}

function readLine<C extends Columns>(
  { line, cells }: CsvRow,
  width: number,
  columns: C,
  places: Places,
): ReadLine<RowOf<C>> {
  if (cells.slice(width).some((cell) => cell.trim() !== ''))
    return { ok: false, line, problems: [tooWide(line)] }
  const row: Record<string, unknown> = {}
  const problems: LineProblem[] = []
  for (const [key, column] of Object.entries(columns)) {
    const read = column.read((cells[places.get(column.name) ?? -1] ?? '').trim())
    if (read.ok) row[key] = read.value
    else problems.push({ line, column: column.name, message: read.refusal.message, next: read.refusal.next })
  }
  return problems.length === 0 ? { ok: true, line, row: row as RowOf<C> } : { ok: false, line, problems }
}

function tooWide(line: number): LineProblem {
  return {
    line,
    column: null,
    message: 'This line has more cells than there are column names.',
    next: 'Put a cell that contains the separator into quotation marks.',
  }
}
