import Papa from 'papaparse'
import type { Cell, Column, Table } from '../../domain/report/table.ts'
import { rounded } from '../../domain/text/words.ts'

/**
 * A table as CSV (RFC 4180) with its heads as first line, in UTF-8 with a mark that spreadsheets know it by. Text that a
 * spreadsheet would take for a formula is set behind an apostrophe (OWASP ASVS 5.0, 1.2.10); numbers stay numbers.
 */
export function tableToCsv({ columns, rows }: Table): string {
  const lines = [
    columns.map(({ head }) => head),
    ...rows.map((row) => row.map((cell, index) => cellOf(cell, columns[index]))),
  ]
  return BYTE_ORDER_MARK + Papa.unparse(lines, { escapeFormulae: FORMULA, newline: '\r\n' }) + '\r\n'
}

const BYTE_ORDER_MARK = '\uFEFF'
/** What a spreadsheet may read as the start of a formula, also behind blanks. */
const FORMULA = /^\s*[=+\-@\t\r]/

/**
 * Two decimals tell a quarter of an hour and an index, and some currencies have three; more would only show how computers
 * count.
 */
const cellOf = (cell: Cell, column: Column | undefined): Cell =>
  typeof cell === 'number' ? rounded(cell, column?.kind === 'money' ? 3 : 2) : cell
