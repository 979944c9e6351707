import writeExcelFile, { type CellObject, type Sheet } from 'write-excel-file/node'
import type { Readable } from 'node:stream'
import type { Cell, Column, Table } from '../../domain/report/table.ts'

/**
 * Tables as one workbook (ECMA-376), a sheet each: heads in bold that stay in sight, numbers as numbers with two decimals,
 * text as text, so that nothing in it is a formula.
 */
export async function tablesToXlsx(tables: readonly Table[]): Promise<Buffer> {
  return writeExcelFile(tables.map(tableToSheet)).toBuffer()
}

function tableToSheet({ name, columns, rows }: Table): Sheet<Readable | Buffer> {
  return {
    sheet: name,
    stickyRowsCount: 1,
    columns: columns.map((column) => ({ width: widthOf(column) })),
    data: [
      columns.map(({ head, kind }): CellObject => ({
        value: head,
        type: String,
        fontWeight: 'bold',
        wrap: true,
        align: isNumber(kind) ? 'right' : 'left',
      })),
      ...rows.map((row) => row.map(toCell)),
    ],
  }
}

const toCell = (cell: Cell): CellObject | null => {
  if (cell === null || cell === '') return null
  return typeof cell === 'number'
    ? { value: cell, type: Number, format: '#,##0.00' }
    : { value: cell, type: String }
}

const isNumber = (kind: Column['kind']): boolean => kind !== 'text' && kind !== 'date'

/** In characters. */
const widthOf = ({ kind }: Column): number => (kind === 'text' ? 32 : 14)
