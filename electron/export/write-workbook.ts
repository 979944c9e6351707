import { Readable } from 'node:stream'
import { buffer } from 'node:stream/consumers'
import { ZipFile } from 'yazl'
import type { Column, Table } from '../../domain/report/table.ts'
import { SHEET_END, sheetPath, sheetRow, sheetStart, workbookParts } from './sheet-xml.ts'

/** Rows of a sheet that came together. */
export type Portion = Table['rows']

export interface SheetToWrite {
  readonly name: string
  readonly columns: readonly Column[]
  /** Read once, after those of the sheets before it. */
  readonly portions: AsyncIterable<Portion>
}

/**
 * A workbook (XLSX, ECMA-376), a sheet for each table: heads in bold that stay in sight, numbers as numbers with two
 * decimals, days as days, text as text, so that nothing in it is a formula. Takes the memory of one portion and of the
 * packed file.
 *
 * @throws Error when a sheet has more rows than the format has
 */
export async function writeWorkbook(sheets: readonly SheetToWrite[]): Promise<Buffer> {
  const zip = new ZipFile()
  const output = zip.outputStream as Readable
  for (const { path, xml } of workbookParts(sheets.map(({ name }) => name)))
    zip.addBuffer(Buffer.from(xml), path)
  sheets.forEach((sheet, index) => {
    zip.addReadStreamLazy(sheetPath(index), (give) => {
      const xml = Readable.from(sheetXml(sheet))
      xml.once('error', (error) => output.destroy(error))
      give(null, xml)
    })
  })
  zip.end()
  return buffer(output)
}

async function* sheetXml({ name, columns, portions }: SheetToWrite): AsyncGenerator<Buffer> {
  yield Buffer.from(sheetStart(columns))
  let number = 1
  for await (const rows of portions) {
    if (number + rows.length > MOST_ROWS)
      throw new Error(`the sheet ${name} would have more than ${MOST_ROWS.toLocaleString('en-GB')} rows`)
    yield Buffer.from(rows.map((row) => sheetRow(columns, row, (number += 1))).join(''))
  }
  yield Buffer.from(SHEET_END)
}

/** With the heads. */
const MOST_ROWS = 1_048_576
