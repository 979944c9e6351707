import { ok, refuse, type Result } from '../refusal.ts'

export interface CsvRow {
  /** Where the row starts in the file, counted from 1 as editors and spreadsheets do. */
  readonly line: number
  readonly cells: readonly string[]
}

/** Characters in one file; about 40,000 lines of hours. */
export const CSV_LIMIT = 4_000_000

/**
 * Reads comma-separated values as RFC 4180 describes them, with commas, semicolons or tabs between the cells (whichever
 * the first line uses most), CRLF or LF at the line ends, a byte order mark before them. Empty lines are left out; a
 * quotation mark inside a cell that does not start with one stands for itself.
 * Refused: an empty file, a file over {@link CSV_LIMIT}, text that was not saved as UTF-8, a quotation that never ends.
 */
export function parseCsv(text: string): Result<readonly CsvRow[]> {
  const readable = checkText(text)
  if (!readable.ok) return readable
  const rows = readRows(readable.value, separatorOf(readable.value))
  if (!rows.ok) return rows
  const filled = rows.value.filter((row) => row.cells.some((cell) => cell.trim() !== ''))
  return filled.length === 0 ? emptyFile : ok(filled)
}

const emptyFile = refuse(
  'bad-input',
  'This file is empty.',
  'Choose a file with a line of column names and a line for each entry below it.',
)

/** A file in another encoding, read as UTF-8, shows replacement characters; UTF-16 shows zero bytes as well. */
function checkText(text: string): Result<string> {
  if (text.length > CSV_LIMIT) {
    return refuse(
      'bad-input',
      `This file has more than ${CSV_LIMIT / 1_000_000} million characters, the most that is read at once.`,
      'Split it into several files, each with the line of column names.',
    )
  }
  if (text.includes('\0')) return wrongEncoding('UTF-16 ("Unicode text")')
  if (text.includes('\uFFFD')) return wrongEncoding('an older encoding, such as Latin-1 or Windows-1252')
  return ok(text.replace(/^\uFEFF/, ''))
}

function wrongEncoding(found: string) {
  return refuse(
    'bad-input',
    `This file is not saved as UTF-8; it looks like ${found}.`,
    'Open it in the spreadsheet, save it as "CSV UTF-8" and choose that file.',
  )
}

function separatorOf(text: string): string {
  const header = /^(?:"(?:[^"]|"")*"|[^"\r\n])*/.exec(text.trimStart())?.[0] ?? ''
  const bare = header.replace(/"(?:[^"]|"")*"/g, '')
  const count = (separator: string) => bare.split(separator).length - 1
  return [',', ';', '\t'].reduce((best, next) => (count(next) > count(best) ? next : best))
}

/** One pass; `line` counts every line end, also those inside quoted cells. */
function readRows(text: string, separator: string): Result<readonly CsvRow[]> {
  const rows: CsvRow[] = []
  let at = 0
  let line = 1
  while (at < text.length) {
    const start = line
    const cells: string[] = []
    for (;;) {
      const cell = text[at] === '"' ? quotedCell(text, at, separator) : plainCell(text, at, separator)
      if (cell === null) return brokenQuotation(line)
      cells.push(cell.value)
      line += cell.value.split(/\r\n|\r|\n/).length - 1
      at = cell.end
      if (text[at] !== separator) break
      at += 1
    }
    rows.push({ line: start, cells })
    at += text.startsWith('\r\n', at) ? 2 : 1
    line += 1
  }
  return ok(rows)
}

interface Cell {
  readonly value: string
  /** Index of the separator or line end after the cell, or the length of the text. */
  readonly end: number
}

function plainCell(text: string, start: number, separator: string): Cell {
  let end = start
  while (end < text.length && text[end] !== separator && text[end] !== '\n' && text[end] !== '\r') end += 1
  return { value: text.slice(start, end), end }
}

/** Null when the quotation does not end, or text follows its end. */
function quotedCell(text: string, start: number, separator: string): Cell | null {
  let close = text.indexOf('"', start + 1)
  while (close >= 0 && text[close + 1] === '"') close = text.indexOf('"', close + 2)
  if (close < 0) return null
  const after = text[close + 1]
  const endsHere = after === undefined || after === separator || after === '\n' || after === '\r'
  return endsHere ? { value: text.slice(start + 1, close).replaceAll('""', '"'), end: close + 1 } : null
}

function brokenQuotation(line: number) {
  return refuse(
    'bad-input',
    `Line ${line}: a cell that starts with a quotation mark does not end with one.`,
    'Close the quotation, and write quotation marks inside it twice.',
  )
}
