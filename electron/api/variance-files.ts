import type { Context } from 'hono'
import {
  entryTable,
  varianceTable,
  varianceTables,
  VARIANCE_TABLES,
} from '../../domain/report/variance-table.ts'
import { refuse } from '../../domain/refusal.ts'
import { answerCsv, answerXlsx } from './answer-table.ts'
import type { ApiServices } from './api-services.ts'
import { refused } from './guard.ts'
import type { Asker } from './pairing.ts'
import { RefusedError } from './refused-error.ts'
import { ofFigureAndCar, readEntries, readVariance } from './variance-procedures.ts'

/** `GET /variance/all.xlsx`: every grouping, a sheet each. */
export async function serveVarianceBook(c: Context, services: ApiServices, asker: Asker): Promise<Response> {
  return answerXlsx(c, services.deps, varianceTables(readVariance(services, asker)), 'Variance')
}

/** `GET /variance/gate.csv` and the other groupings, as far as they are shown to who asks. */
export function serveVarianceTable(c: Context, services: ApiServices, asker: Asker): Response {
  const by = VARIANCE_TABLES.find((each) => `${each}.csv` === c.req.param('file'))
  const table = by === undefined ? null : varianceTable(readVariance(services, asker), by)
  return table === null
    ? refused(c, 404, noSuchTable)
    : answerCsv(c, services.deps, table, `Variance ${table.name}`)
}

/** `GET /variance/entries.csv?grouping=…&key=…&carId=…`: the time entries behind one car's part of a figure. */
export function serveVarianceEntries(c: Context, services: ApiServices, asker: Asker): Response {
  const asked = ofFigureAndCar.safeParse(c.req.query())
  if (!asked.success) return refused(c, 404, noSuchTable)
  try {
    const view = readEntries(services, asker, asked.data)
    return answerCsv(c, services.deps, entryTable(view), `Time entries ${view.name}`)
  } catch (error) {
    if (error instanceof RefusedError) return refused(c, 404, error.refusal)
    throw error
  }
}

const { refusal: noSuchTable } = refuse(
  'unknown',
  'There is no such table.',
  'Choose one on the Variance screen.',
)
