import { existsSync, mkdirSync } from 'node:fs'
import { keepBeforeMigration } from './before-migration.ts'
import { lastLine } from './chains.ts'
import { codeKeyPath, databasePath, hostLockPath, journalEndPath } from './data-paths.ts'
import { DatabaseProblem, openingProblem } from './database-problem.ts'
import type { Database, ReadDatabase } from './database.ts'
import { ensureEpoch, startEpoch } from './epoch.ts'
import { CODE_COST, createCodeKey, LEAST_CODE_COST, loadCodeKey } from './code-key.ts'
import { openReader, openWriter, type Handle } from './handle.ts'
import { claimFolder } from './host-lock.ts'
import { missingEnd, openEndKeeper, readJournalEnd, type EndKeeper, type JournalEnd } from './journal-end.ts'
import { isRebuildDue, migrate, readMigrations, requireNewest, versionOf } from './migrate.ts'
import { rebuildDerived } from './rebuild-derived.ts'
import { createStateCache } from './state-cache.ts'

/**
 * Opens the database of a data folder: for the host, which makes the folder when it is missing and brings an older
 * database up to date, or only for reading, beside a running host.
 *
 * @throws DatabaseProblem whose message says what to do
 */
export function openDatabase(dataDir: string): Database
export function openDatabase(dataDir: string, options: { readonly readonly: true }): ReadDatabase
export function openDatabase(dataDir: string, options?: { readonly readonly: true }): ReadDatabase {
  const path = databasePath(dataDir)
  try {
    return options?.readonly ? openForReading(dataDir, path) : openForWriting(dataDir, path)
  } catch (error) {
    throw openingProblem(error, path)
  }
}

/** A database in memory, gone when it is closed, codes and all. Reader and writer are the same connection. */
export function openInMemory(): Database {
  const writer = openWriter(':memory:')
  migrate(writer)
  const database: Database = {
    dataDir: null,
    reader: writer,
    writer,
    codeKey: createCodeKey(),
    codeCost: LEAST_CODE_COST,
    cache: createStateCache(),
    noteEnd: () => {},
    close: () => closeAll(writer),
  }
  ensureEpoch(database)
  return database
}

function openForReading(dataDir: string, path: string): ReadDatabase {
  if (!existsSync(path))
    throw new DatabaseProblem(
      `There is no workshop in ${dataDir}: name the folder that Panelwright was started with.`,
    )
  const reader = openReader(path)
  try {
    requireNewest(reader)
  } catch (error) {
    closeAll(reader)
    throw error
  }
  return { dataDir, reader, cache: createStateCache(), close: () => closeAll(reader) }
}

function openForWriting(dataDir: string, path: string): Database {
  mkdirSync(dataDir, { recursive: true })
  const giveFree = claimFolder(hostLockPath(dataDir))
  const opened: Handle[] = []
  let keeper: EndKeeper | null = null
  const close = () => {
    keeper?.close()
    closeAll(...opened)
    giveFree()
  }
  try {
    const codeKey = loadCodeKey(codeKeyPath(dataDir))
    const writer = openWriter(path)
    opened.unshift(writer)
    const end = requireEnd(writer, dataDir)
    keepBefore(writer, dataDir)
    migrate(writer)
    const reader = openReader(path)
    opened.unshift(reader)
    const database: Database = {
      dataDir,
      reader,
      writer,
      codeKey,
      codeCost: CODE_COST,
      cache: createStateCache(),
      noteEnd: () => keeper?.note(),
      close,
    }
    if (isRebuildDue(writer)) {
      // Free pages of earlier programs may hold names that were changed since; see migration 9.
      writer.sqlite.exec('VACUUM')
      rebuildDerived(database)
    }
    // What was remembered of another journal was put away, or this database comes from somewhere else.
    if (end === null && lastLine(writer) !== undefined) startEpoch(database)
    else ensureEpoch(database)
    keeper = openEndKeeper(journalEndPath(dataDir), writer)
    return database
  } catch (error) {
    close()
    throw error
  }
}

/** @throws DatabaseProblem when something of what was recorded here is not in the database */
function requireEnd(writer: Handle, dataDir: string): JournalEnd | null {
  const path = journalEndPath(dataDir)
  const end = readJournalEnd(path)
  if (end === null) return end
  const problem = versionOf(writer) === 0 ? emptyProblem(end) : missingEnd(writer, end)
  if (problem === null) return end
  throw new DatabaseProblem(
    `${problem} Put workshop.db and workshop.db-wal back as they were, or restore the newest copy into an empty folder. To go on without what is missing, remove ${path}, start again, and enter once more what is not there.`,
  )
}

/** A workshop that an older program has left is kept as it is before its tables change. */
function keepBefore(writer: Handle, dataDir: string): void {
  const version = versionOf(writer)
  if (version === 0 || version >= readMigrations().length || lastLine(writer) === undefined) return
  keepBeforeMigration(writer, dataDir, version, Date.now())
}

/** Without its file, or its write-ahead log before anything was taken out of it, a database looks like a new one. */
function emptyProblem({ number }: JournalEnd): string | null {
  return number === 0 ? null : `The database is empty, but line ${number} of its journal was recorded here.`
}

/** The writer goes last: the last connection takes the write-ahead log into the database file. */
function closeAll(...handles: readonly Handle[]): void {
  for (const { sqlite } of handles) sqlite.close()
}
