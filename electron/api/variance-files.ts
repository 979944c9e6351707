import type { Context } from 'hono'
import {
  entryTable,
  varianceTable,
  varianceTables,
  VARIANCE_TABLES,
} from '../../domain/report/variance-table.ts'
import type { Table } from '../../domain/report/table.ts'
import { refuse } from '../../domain/refusal.ts'
import { fileName } from './answer-pdf.ts'
import type { ApiServices } from './api-services.ts'
import { refused } from './guard.ts'
import type { Asker } from './pairing.ts'
import { RefusedError } from './refused-error.ts'
import { ofFigureAndCar, readEntries, readVariance } from './variance-procedures.ts'

/** `GET /variance/all.xlsx`: every grouping, a sheet each. */
export async function serveVarianceBook(c: Context, services: ApiServices, asker: Asker): Promise<Response> {
  const book = await services.deps.tables.toXlsx(varianceTables(readVariance(services, asker)))
  return c.body(new Uint8Array(book), 200, savedAs('Variance.xlsx', XLSX))
}

/** `GET /variance/gate.csv` and the other groupings, as far as they are shown to who asks. */
export function serveVarianceTable(c: Context, services: ApiServices, asker: Asker): Response {
  const by = VARIANCE_TABLES.find((each) => `${each}.csv` === c.req.param('file'))
  const table = by === undefined ? null : varianceTable(readVariance(services, asker), by)
  return table === null
    ? refused(c, 404, noSuchTable)
    : answerCsv(c, services, table, `Variance ${table.name}`)
}

/** `GET /variance/entries.csv?grouping=…&key=…&carId=…`: the time entries behind one car's part of a figure. */
export function serveVarianceEntries(c: Context, services: ApiServices, asker: Asker): Response {
  const asked = ofFigureAndCar.safeParse(c.req.query())
  if (!asked.success) return refused(c, 404, noSuchTable)
  try {
    const view = readEntries(services, asker, asked.data)
    return answerCsv(c, services, entryTable(view), `Time entries ${view.name}`)
  } catch (error) {
    if (error instanceof RefusedError) return refused(c, 404, error.refusal)
    throw error
  }
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'

const answerCsv = (c: Context, { deps }: ApiServices, table: Table, name: string): Response =>
  c.body(deps.tables.toCsv(table), 200, savedAs(`${name}.csv`, 'text/csv; charset=utf-8'))

const savedAs = (name: string, type: string): Record<string, string> => ({
  'Content-Type': type,
  'Content-Disposition': `attachment; filename="${fileName(name)}"`,
  'Cache-Control': 'no-store',
})

const { refusal: noSuchTable } = refuse(
  'unknown',
  'There is no such table.',
  'Choose one on the Variance screen.',
)
