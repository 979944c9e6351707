import { Hono } from 'hono'
import { expect, test } from 'vitest'
import { answerCsv } from '../../../electron/api/answer-table.ts'
import type { ApiDeps } from '../../../electron/api/deps.ts'
import { tableToCsv } from '../../../electron/export/table-to-csv.ts'
import type { Row } from '../../../domain/report/table.ts'

test('a table that is given up while its next piece is on its way is worked out no further, which is no defect', async () => {
  const log: string[] = []
  const worked: number[] = []
  function* rows(): Generator<Row> {
    for (let row = 0; row < 1_000_000; row += 1) {
      worked.push(row)
      yield ['sill', row]
    }
  }
  const columns = [
    { head: 'repair', kind: 'text' as const },
    { head: 'hours', kind: 'hours' as const },
  ]
  const deps = { tables: { toCsv: tableToCsv }, log: (line: string) => log.push(line) } as unknown as ApiDeps
  const app = new Hono().get('/', (c) =>
    answerCsv(c, deps, { name: 'hours', columns, rows: rows() }, 'hours'),
  )
  const reader = (await app.request('/')).body?.getReader()
  await reader?.read()
  // Until the stream has begun to ask for the next piece, which takes its turn behind others.
  for (let microtask = 0; microtask < 20; microtask += 1) await Promise.resolve()
  await reader?.cancel()
  await new Promise((resolve) => setTimeout(resolve, 20))
  expect(log).toEqual([])
  expect(worked).toEqual([])
})
