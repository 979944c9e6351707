import { randomUUID } from 'node:crypto'
import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Moment } from '../domain/car.ts'
import { ERASED_CONTACT } from '../domain/commands/erased-contact.ts'
import { fact } from '../domain/facts.ts'
import { commandIdSchema, type PartyId, type PersonId } from '../domain/ids.ts'
import { appendFacts } from './append-facts.ts'
import { rewriteContacts, writeContacts } from './contacts.ts'
import { beforeMigrationFolder } from './data-paths.ts'
import type { Database, ReadDatabase } from './database.ts'
import { inTransaction, openWriter, type Handle } from './handle.ts'
import { readWorkshop } from './reads.ts'
import { currentWorkshop } from './state-cache.ts'

/** Who was erased for good, by the id alone, and when, epoch milliseconds. */
export interface Erasure {
  readonly id: string
  readonly at: Moment
}

/** In the order in which they were recorded. */
export function readErasures(db: ReadDatabase): readonly Erasure[] {
  return [...readWorkshop(db).erased].map(([id, at]) => ({ id, at }))
}

/**
 * Erases once more who was erased after what this database holds, whatever is in hand for them: to be called before anybody
 * has seen it.
 *
 * @returns how many of them it still had
 */
export function eraseAgain(db: Database, erasures: readonly Erasure[], now: Moment): number {
  const { writer, cache } = db
  const count = inTransaction(writer, () => {
    const { people, parties, erased } = currentWorkshop(writer, cache)
    const known = [...people.keys(), ...parties.keys()].filter((id) => !erased.has(id))
    const again = known.flatMap((id) => erasures.filter((each) => each.id === id).slice(0, 1))
    for (const erasure of again) record(writer, erasure, now)
    writeContacts(
      writer,
      [...again.map(({ id }) => id), ...erased.keys()].map((id) => ({ id, contact: ERASED_CONTACT })),
    )
    rewriteContacts(writer)
    return again.length
  })
  db.noteEnd()
  return count
}

function record(writer: Handle, { id, at }: Erasure, now: Moment): void {
  const made = new Date(now).toISOString()
  appendFacts(writer, [fact('contactErased', { id: id as PersonId | PartyId })], {
    carId: null,
    visitId: null,
    by: null,
    device: null,
    commandId: commandIdSchema.parse(randomUUID()),
    happened: new Date(at).toISOString(),
    made,
    now,
  })
}

/** The same in the databases that were kept before a migration; their journals are as they were. */
export function eraseBeforeMigration(dataDir: string, erasures: readonly Erasure[]): void {
  const folder = beforeMigrationFolder(dataDir)
  if (!existsSync(folder)) return
  const ids = new Set(erasures.map(({ id }) => id))
  for (const name of readdirSync(folder)) eraseIn(join(folder, name, 'workshop.db'), ids)
}

function eraseIn(path: string, ids: ReadonlySet<string>): void {
  if (!existsSync(path)) return
  const kept = openWriter(path)
  try {
    inTransaction(kept, () => {
      const known = kept.sqlite.prepare('SELECT id FROM contact').pluck().all() as readonly string[]
      writeContacts(
        kept,
        known.filter((id) => ids.has(id)).map((id) => ({ id, contact: ERASED_CONTACT })),
      )
      rewriteContacts(kept)
    })
    // As it was kept: one file, without a log beside it.
    kept.sqlite.pragma('journal_mode = DELETE')
  } finally {
    kept.sqlite.close()
  }
}
