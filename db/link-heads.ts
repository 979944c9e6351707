import { randomUUID } from 'node:crypto'
import { and, desc, eq } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import { fact } from '../domain/facts.ts'
import { commandIdSchema } from '../domain/ids.ts'
import { appendFacts } from './append-facts.ts'
import type { Database } from './database.ts'
import { inTransaction, perHandle, type Handle } from './handle.ts'
import { carHeadsAfter } from './chains.ts'
import { journal, WORKSHOP_CHAIN } from './schema.ts'

/**
 * Writes the heads of the cars' chains that have grown since the last time into the workshop's chain, so that a car's chain
 * cannot be cut or rewritten without rewriting the workshop's as well. Nothing is written when no car has changed since.
 *
 * @param now epoch milliseconds
 * @returns whether a fact was added
 */
export function linkHeads(db: Database, now: Moment): boolean {
  const isLinked = inTransaction(db.writer, () => appendHeads(db.writer, now))
  db.noteEnd()
  return isLinked
}

/** The same inside a transaction that is running. */
export function appendHeads(writer: Handle, now: Moment): boolean {
  const heads = carHeadsAfter(writer, queries(writer).lastLinked.get()?.number ?? 0)
  if (Object.keys(heads).length === 0) return false
  const at = new Date(now).toISOString()
  appendFacts(writer, [fact('headsLinked', { heads })], {
    carId: null,
    visitId: null,
    by: null,
    device: null,
    commandId: commandIdSchema.parse(randomUUID()),
    happened: at,
    made: at,
    now,
  })
  return true
}

const queries = perHandle(({ orm }) => ({
  lastLinked: orm
    .select({ number: journal.number })
    .from(journal)
    .where(and(eq(journal.chain, WORKSHOP_CHAIN), eq(journal.kind, 'headsLinked')))
    .orderBy(desc(journal.chainNumber))
    .limit(1)
    .prepare(),
}))
