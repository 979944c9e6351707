import type { Context } from 'hono'
import { savedAs } from './saved-as.ts'

/** What a printed page shows, as data to save. @param name of the file, without its ending */
export const answerJson = (c: Context, shown: unknown, name: string): Response =>
  c.body(
    `${JSON.stringify(shown, null, 2)}\n`,
    200,
    savedAs(`${name}.json`, 'application/json; charset=utf-8'),
  )
