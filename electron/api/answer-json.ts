import type { Context } from 'hono'
import { fileName } from './answer-pdf.ts'

/** What a printed page shows, as data to save. @param name of the file, without its ending */
export const answerJson = (c: Context, shown: unknown, name: string): Response =>
  c.body(`${JSON.stringify(shown, null, 2)}\n`, 200, {
    'Content-Type': 'application/json; charset=utf-8',
    'Content-Disposition': `attachment; filename="${fileName(name)}.json"`,
    'Cache-Control': 'no-store',
  })
