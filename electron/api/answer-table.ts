import type { Context } from 'hono'
import type { LongTable } from '../../domain/report/table.ts'
import { refuse } from '../../domain/refusal.ts'
import { errorMessage } from '../../domain/text/error-words.ts'
import type { ApiDeps } from './deps.ts'
import { refused } from './guard.ts'
import { savedAs } from './saved-as.ts'

/** @param name of the file, without its ending */
export const answerCsv = (c: Context, { tables, log }: ApiDeps, table: LongTable, name: string): Response =>
  c.body(inTurns(tables.toCsv(table), log), 200, savedAs(`${name}.csv`, 'text/csv; charset=utf-8'))

/** A sheet each. @param name of the file, without its ending */
export async function answerXlsx(
  c: Context,
  { log, tables }: ApiDeps,
  sheets: readonly LongTable[],
  name: string,
): Promise<Response> {
  try {
    return c.body(await tables.toXlsx(sheets), 200, savedAs(`${name}.xlsx`, XLSX))
  } catch (error) {
    const message = errorMessage(error)
    log(message)
    return refused(c, 500, refuse('storage', message, 'Try again, or take the table as CSV.').refusal)
  }
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'

/** Text in UTF-8, between whose pieces others get their answers. What fails breaks off, so that nobody takes it for whole. */
function inTurns(pieces: Iterable<string>, log: ApiDeps['log']): ReadableStream<Uint8Array<ArrayBuffer>> {
  const encoder = new TextEncoder()
  const left = pieces[Symbol.iterator]()
  let isGivenUp = false
  return new ReadableStream({
    pull: async (sink) => {
      await new Promise((resolve) => setImmediate(resolve))
      if (isGivenUp) return
      try {
        const { done, value } = left.next()
        if (done) sink.close()
        else sink.enqueue(encoder.encode(value))
      } catch (error) {
        log(errorMessage(error))
        sink.error(error)
      }
    },
    cancel: () => {
      isGivenUp = true
      left.return?.()
    },
  })
}
