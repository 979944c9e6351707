import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { DatabaseProblem } from './database-problem.ts'
import { inTransaction, type Handle } from './handle.ts'

export interface Migration {
  /** Counted from 1 without gaps; recorded as the file's `user_version`. */
  readonly version: number
  readonly name: string
  readonly sql: string
}

/**
 * Brings a database to the newest version, one transaction for each step.
 *
 * @returns the version it had before; 0 for a new one
 * @throws DatabaseProblem when it was written by a newer program
 */
export function migrate(writer: Handle, migrations: readonly Migration[] = readMigrations()): number {
  const before = versionOf(writer)
  refuseNewer(before, migrations)
  for (const migration of migrations.slice(before))
    inTransaction(writer, () => {
      // Another process may have come first while this one waited for the lock.
      if (versionOf(writer) >= migration.version) return
      writer.sqlite.exec(migration.sql)
      writer.sqlite.pragma(`user_version = ${migration.version}`)
      if (before > 0) setRebuildDue(writer, true)
    })
  return before
}

/**
 * Whether the tables beside the journal are still to be made anew after a migration. It stands in the file's header, in the same
 * transaction as the step, so that a program that is killed in between leaves it behind.
 */
export function isRebuildDue(handle: Handle): boolean {
  return handle.sqlite.pragma('application_id', { simple: true }) === REBUILD_DUE
}

/** To be called within the transaction that changes or makes anew the tables. */
export function setRebuildDue(writer: Handle, isDue: boolean): void {
  writer.sqlite.pragma(`application_id = ${isDue ? REBUILD_DUE : 0}`)
}

const REBUILD_DUE = 1

/** @throws DatabaseProblem unless a reader finds exactly the newest version */
export function requireNewest(reader: Handle, migrations: readonly Migration[] = readMigrations()): void {
  const version = versionOf(reader)
  refuseNewer(version, migrations)
  if (version < migrations.length)
    throw new DatabaseProblem(
      'This data folder was last used by an older Panelwright. Start the program on it once; it brings the folder up to date.',
    )
}

/** The steps in order, from the numbered files beside this one. */
export function readMigrations(): readonly Migration[] {
  const folder = new URL('./migrations/', import.meta.url)
  const names = readdirSync(fileURLToPath(folder))
    .filter((name) => name.endsWith('.sql'))
    .sort()
  return names.map((name, index) => {
    const version = Number.parseInt(name, 10)
    if (version !== index + 1) throw new Error(`Migration ${name} should have number ${index + 1}.`)
    return { version, name, sql: readFileSync(new URL(name, folder), 'utf8') }
  })
}

/** The migration that a database has come to; 0 for a new one. */
export function versionOf(handle: Handle): number {
  return handle.sqlite.pragma('user_version', { simple: true }) as number
}

function refuseNewer(version: number, migrations: readonly Migration[]): void {
  if (version > migrations.length)
    throw new DatabaseProblem(
      `This data folder belongs to a newer Panelwright (its version is ${version}, this program knows ${migrations.length}). Install the newer program; nothing was changed.`,
    )
}
