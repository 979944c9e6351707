import type { Context } from 'hono'
import type { Table } from '../../domain/report/table.ts'
import { refuse } from '../../domain/refusal.ts'
import { fileName } from './answer-pdf.ts'
import type { ApiDeps } from './deps.ts'
import { refused } from './guard.ts'

/** @param name of the file, without its ending */
export const answerCsv = (c: Context, { tables }: ApiDeps, table: Table, name: string): Response =>
  c.body(tables.toCsv(table), 200, savedAs(`${name}.csv`, 'text/csv; charset=utf-8'))

/** A sheet each. @param name of the file, without its ending */
export async function answerXlsx(
  c: Context,
  { log, tables }: ApiDeps,
  sheets: readonly Table[],
  name: string,
): Promise<Response> {
  try {
    return c.body(await tables.toXlsx(sheets), 200, savedAs(`${name}.xlsx`, XLSX))
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error)
    log(message)
    return refused(c, 500, refuse('storage', message, 'Try again, or take the table as CSV.').refusal)
  }
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'

const savedAs = (name: string, type: string): Record<string, string> => ({
  'Content-Type': type,
  'Content-Disposition': `attachment; filename="${fileName(name)}"`,
  'Cache-Control': 'no-store',
})
