import { readFileSync, writeFileSync } from 'node:fs'
import Sqlite from 'better-sqlite3'
import { eq } from 'drizzle-orm'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { databasePath } from '../../db/data-paths.ts'
import { CHAIN_START, lineHash } from '../../db/journal-hash.ts'
import { journal, type Chain } from '../../db/schema.ts'

/** Changes a closed database as somebody would who knows SQLite: the guards are taken off first. */
export function tamper(dataDir: string, change: (sqlite: Sqlite.Database) => void): void {
  const sqlite = new Sqlite(databasePath(dataDir))
  for (const table of ['journal_lines', 'payloads'])
    sqlite.exec(`DROP TRIGGER ${table}_do_not_change; DROP TRIGGER ${table}_stay`)
  change(sqlite)
  sqlite.close()
}

/** Changes the lowest bit of the last byte of a text that is found in a file. */
export function flip(path: string, text: string): void {
  const bytes = readFileSync(path)
  const at = bytes.indexOf(text)
  if (at < 0) throw new Error(`'${text}' is not in ${path}.`)
  flipAt(path, at + text.length - 1)
}

export function flipAt(path: string, at: number): void {
  const bytes = readFileSync(path)
  bytes.writeUInt8(bytes.readUInt8(at) ^ 1, at)
  writeFileSync(path, bytes)
}

/** Puts every hash of a chain right, as a forger would who has changed one of its lines. */
export function rehash(sqlite: Sqlite.Database, chain: Chain): void {
  const orm = drizzle({ client: sqlite })
  let prev = CHAIN_START
  for (const line of orm
    .select()
    .from(journal)
    .where(eq(journal.chain, chain))
    .orderBy(journal.number)
    .all()) {
    const hash = lineHash({ ...line, prev })
    orm.update(journal).set({ prev, hash }).where(eq(journal.number, line.number)).run()
    prev = hash
  }
}
