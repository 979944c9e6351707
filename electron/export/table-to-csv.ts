import Papa from 'papaparse'
import type { Cell, Column, LongTable, Row } from '../../domain/report/table.ts'
import { rounded } from '../../domain/text/words.ts'
import { portionsOf } from './portions.ts'

/**
 * A table as CSV (RFC 4180) with its heads as first line, in UTF-8 with a mark that spreadsheets know it by. Text that a
 * spreadsheet would take for a formula is set behind an apostrophe (OWASP ASVS 5.0, 1.2.10); numbers stay numbers. In pieces,
 * each worked out when it is asked for.
 */
export function* tableToCsv({ columns, rows }: LongTable): Generator<string> {
  yield BYTE_ORDER_MARK + toLines([columns.map(({ head }) => head)])
  for (const portion of portionsOf(rows, PORTION))
    yield toLines(portion.map((row) => row.map((cell, index) => cellOf(cell, columns[index]))))
}

/** A car has some 160 gates and twice as many pieces of time: folding one takes some 10 ms of the host. */
const PORTION = 200

const toLines = (rows: Row[]): string =>
  Papa.unparse(rows as Cell[][], { escapeFormulae: FORMULA, newline: '\r\n' }) + '\r\n'

const BYTE_ORDER_MARK = '\uFEFF'
/** What a spreadsheet may read as the start of a formula, also behind blanks. */
const FORMULA = /^\s*[=+\-@\t\r]/

/**
 * Two decimals tell a quarter of an hour and an index, and some currencies have three; more would only show how computers
 * count.
 */
const cellOf = (cell: Cell, column: Column | undefined): Cell =>
  typeof cell === 'number' ? rounded(cell, column?.kind === 'money' ? 3 : 2) : cell
