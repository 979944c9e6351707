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
    'THE TABLES WERE NOT OPENED IN A SPREADSHEET: install LibreOffice (Debian: apt-get install libreoffice-calc-nogui) and run again.',
  )

/** `describe`, skipped loudly where LibreOffice is not installed. */
export const describeSpreadsheet = hasSpreadsheet ? describe : describe.skip

/** What a spreadsheet holds in a cell: a number or a day apart from text that only looks so. Null is an empty one. */
export type OpenedCell = { readonly text: string } | { readonly value: string } | null

/** Cells of a sheet, row by row. */
export type OpenedSheet = readonly (readonly OpenedCell[])[]

/**
 * Opens files in one run of LibreOffice Calc and answers their sheets, by 'name/sheet'; the sheet of a CSV has the name of
 * its file. It starts with empty settings of its own.
 *
 * @param files by a name without dashes
 */
export async function openInSpreadsheet(
  kind: 'xlsx' | 'csv',
  files: Readonly<Record<string, Uint8Array>>,
): Promise<ReadonlyMap<string, OpenedSheet>> {
  const folder = await mkdtemp(join(tmpdir(), 'panelwright-spreadsheet-'))
  const opened = join(folder, 'opened')
  try {
    const paths = Object.keys(files).map((name) => join(folder, `${name}.${kind}`))
    for (const path of paths) await writeFile(path, files[basename(path, `.${kind}`)] ?? '')
    const settings = `-env:UserInstallation=${pathToFileURL(join(folder, 'settings')).href}`
    const reading = kind === 'csv' ? [`--infilter=${USUAL_CSV}`] : []
    const writing = ['--convert-to', `csv:${TYPED_CSV}`, '--outdir', opened]
    await run('soffice', [settings, '--headless', ...reading, ...writing, ...paths])
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

/** What Calc proposes when a person opens a CSV: comma, double quote, UTF-8, from line 1 on. */
const USUAL_CSV = 'Text - txt - csv (StarCalc):44,34,76,1'

/**
 * Comma, double quote, UTF-8, from line 1 on, English; text in quotes and nothing else, numbers in full and not as shown,
 * formulas as what they come to, every sheet in a file of its own (filter options of LibreOffice's help).
 */
const TYPED_CSV = `${USUAL_CSV},,1033,true,true,false,false,false,-1`

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
