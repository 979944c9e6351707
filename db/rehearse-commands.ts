import type { Refusal } from '../domain/refusal.ts'
import type { Database } from './database.ts'
import { createRun, executeOne, refusalOf, type Run } from './execute-command.ts'
import type { CommandRequest } from './gather.ts'
import { inTransaction } from './handle.ts'
import { forget } from './state-cache.ts'

/**
 * What each command would be answered, were those before it that are let through executed: a refusal, or null. Nothing is
 * recorded. Unlike `executeCommands` it goes on after a refusal, so that all that is wrong with a file is said at once.
 */
export function rehearseCommands(
  db: Database,
  requests: readonly CommandRequest[],
): readonly (Refusal | null)[] {
  const run = createRun()
  const rehearsal = new Rehearsal()
  const { finished } = db.cache
  try {
    inTransaction(db.writer, () => {
      for (const request of requests) rehearsal.refusals.push(rehearseOne(db, request, run))
      throw rehearsal
    })
  } catch (error) {
    if (error !== rehearsal) throw error
  } finally {
    forget(db.cache, run.touched, finished)
  }
  return rehearsal.refusals
}

/** A savepoint of its own: a refused command takes back what it has done itself, and no more. */
function rehearseOne(db: Database, request: CommandRequest, run: Run): Refusal | null {
  const { finished } = db.cache
  try {
    db.writer.sqlite.transaction(() => executeOne(db, request, run))()
    return null
  } catch (error) {
    forget(db.cache, run.touched, finished)
    const refusal = refusalOf(error)
    if (refusal) return refusal
    throw error
  }
}

/** Thrown to end the transaction, and carries out of it what was found. */
class Rehearsal extends Error {
  readonly refusals: (Refusal | null)[] = []
}
