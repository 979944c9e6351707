import { randomUUID } from 'node:crypto'
import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import type { CarState, Moment, VisitState } from '../domain/car.ts'
import { ERASED_CONTACT } from '../domain/commands/erased-contact.ts'
import { fact } from '../domain/facts.ts'
import { type CarId, commandIdSchema, type PartyId, type PersonId } from '../domain/ids.ts'
import { rememberAnswer } from './answers.ts'
import { appendFacts } from './append-facts.ts'
import { rewriteContacts, writeContacts } from './contacts.ts'
import { beforeMigrationFolder } from './data-paths.ts'
import type { Database, ReadDatabase } from './database.ts'
import { inTransaction, openWriter, perHandle } from './handle.ts'
import { readCar, readWorkshop } from './reads.ts'
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
 * Cars that any visit was opened on for somebody as owner or insurer, resting ones among them, in order of shell numbers. The
 * openings of all years are gone through: for a question that is asked now and then.
 */
export function readCarsOfParty(db: ReadDatabase, id: string): readonly CarState[] {
  const carIds = queries(db.reader).ofParty.all(JSON.stringify(id)) as readonly CarId[]
  return carIds
    .flatMap((carId) => readCar(db, carId) ?? [])
    .filter((car) => visitsOfParty(car, id).length > 0)
}

/** Visits that somebody is owner or insurer of. */
export function visitsOfParty({ visits }: CarState, id: string): readonly VisitState[] {
  return [...visits.values()].filter(({ ownerId, insurerId }) => ownerId === id || insurerId === id)
}

/** Lines of the record of some cars, and drafts of reports, in which a name stands as somebody typed it. */
export function countTyped({ reader }: ReadDatabase, name: string, cars: readonly CarId[]): number {
  const { lines, drafts } = queries(reader)
  const typed = JSON.stringify(name).slice(1, -1)
  const ofCars = cars.map((chain) => lines.get(chain, typed) as number)
  return ofCars.reduce((sum, count) => sum + count, drafts.get(typed) as number)
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
    for (const erasure of again) record(db, erasure, now)
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

/** As its command would have, with an answer; nobody acts. */
function record({ writer, codeKey }: Database, erasure: Erasure, now: Moment): void {
  const payload = { id: erasure.id as PersonId | PartyId }
  const commandId = commandIdSchema.parse(randomUUID())
  const recorded = appendFacts(writer, [fact('contactErased', payload)], {
    carId: null,
    visitId: null,
    by: null,
    device: null,
    commandId,
    happened: new Date(erasure.at).toISOString(),
    made: new Date(now).toISOString(),
    now,
  })
  const numbers = recorded.map(({ number }) => number)
  rememberAnswer(writer, { id: commandId, kind: 'eraseContact', payload, carId: null, by: null }, codeKey, {
    ok: true,
    revision: numbers[0] ?? 0,
    numbers,
    carId: null,
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

const queries = perHandle(({ sqlite }) => ({
  ofParty: sqlite
    .prepare(
      `SELECT id FROM car WHERE id IN (SELECT chain FROM journal JOIN payload USING (number)
         WHERE kind IN ('visitOpened', 'visitChanged') AND instr(json, ?) > 0) ORDER BY shell_number`,
    )
    .pluck(),
  lines: sqlite
    .prepare(
      'SELECT count(*) FROM journal JOIN payload USING (number) WHERE chain = ? AND instr(json, ?) > 0',
    )
    .pluck(),
  drafts: sqlite.prepare('SELECT count(*) FROM report_draft WHERE instr(choices, ?) > 0').pluck(),
}))
