import { execFile } from 'node:child_process'
import { existsSync } from 'node:fs'
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, delimiter, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'
import { describe } from 'vitest'

const run = promisify(execFile)

/** LibreOffice: a spreadsheet that is not ours. */
const hasSpreadsheet = (process.env.PATH ?? '')
  .split(delimiter)
  .some((folder) => existsSync(join(folder, 'soffice')))

if (!hasSpreadsheet)
  console.warn(
    'THE WORKBOOKS WERE NOT OPENED: install LibreOffice (Debian: apt-get install libreoffice-calc-nogui) and run again.',
  )

/** `describe`, skipped loudly where LibreOffice is not installed. */
export const describeSpreadsheet = hasSpreadsheet ? describe : describe.skip

/** What a spreadsheet holds in a cell: a number or a day apart from text that only looks so. Null is an empty one. */
export type OpenedCell = { readonly text: string } | { readonly value: string } | null

/** Cells of a sheet, row by row. */
export type OpenedSheet = readonly (readonly OpenedCell[])[]

/**
 * Opens workbooks in one run of LibreOffice Calc and answers their sheets, by 'book/sheet'. It starts with empty settings
 * of its own.
 *
 * @param books XLSX, by a name of small letters
 */
export async function openWorkbooks(
  books: Readonly<Record<string, Uint8Array>>,
): Promise<ReadonlyMap<string, OpenedSheet>> {
  const folder = await mkdtemp(join(tmpdir(), 'panelwright-spreadsheet-'))
  const opened = join(folder, 'opened')
  try {
    const paths = Object.keys(books).map((name) => join(folder, `${name}.xlsx`))
    for (const path of paths) await writeFile(path, books[basename(path, '.xlsx')] ?? '')
    const settings = `-env:UserInstallation=${pathToFileURL(join(folder, 'settings')).href}`
    await run('soffice', [settings, '--headless', '--convert-to', TYPED_CSV, '--outdir', opened, ...paths])
    const sheets = new Map<string, OpenedSheet>()
    for (const file of await readdir(opened)) {
      const csv = await readFile(join(opened, file), 'utf8')
      sheets.set(basename(file, '.csv').replace('-', '/'), cellsOf(csv))
    }
    return sheets
  } finally {
    await rm(folder, { recursive: true })
  }
}

/**
 * Comma, double quote, UTF-8, from line 1 on, English; text in quotes and nothing else, numbers in full and not as shown,
 * formulas as what they come to, every sheet in a file of its own (filter options of LibreOffice's help).
 */
const TYPED_CSV = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,1033,true,true,false,false,false,-1'

/** Readers of CSV drop the quotes, which here tell text from numbers. */
function cellsOf(csv: string): OpenedSheet {
  const rows: OpenedCell[][] = [[]]
  for (const [, quoted, plain = '', end] of csv.matchAll(/(?:"((?:[^"]|"")*)"|([^",\n]*))(,|\n)/g)) {
    const text = quoted?.replaceAll('""', '"')
    rows.at(-1)?.push(text !== undefined ? { text } : plain === '' ? null : { value: plain })
    if (end === '\n') rows.push([])
  }
  return rows.slice(0, -1)
}
