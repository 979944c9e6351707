import Sqlite from 'better-sqlite3'
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3'

/** One connection to the database. */
export interface Handle {
  readonly sqlite: Sqlite.Database
  readonly orm: BetterSQLite3Database
}

/** How long a statement waits for another process, such as a copy being made beside the host. */
const BUSY_MS = 5_000

/** @param path a file, or ':memory:' */
export function openWriter(path: string): Handle {
  const sqlite = new Sqlite(path, { timeout: BUSY_MS })
  sqlite.pragma('journal_mode = WAL')
  sqlite.pragma('synchronous = FULL')
  sqlite.pragma('foreign_keys = ON')
  // What is deleted or written over is gone from the file: a name that was changed or erased must not stay in it.
  sqlite.pragma('secure_delete = ON')
  return toHandle(sqlite)
}

/** A connection that cannot write. @throws where there is no such file */
export function openReader(path: string): Handle {
  return toHandle(new Sqlite(path, { readonly: true, fileMustExist: true, timeout: BUSY_MS }))
}

/**
 * Statements prepared once for each connection. Preparing one takes ten times as long as running it, so everything
 * that runs for a command or for a screen goes through here.
 */
export function perHandle<T>(prepare: (handle: Handle) => T): (handle: Handle) => T {
  const prepared = new WeakMap<Handle, T>()
  return (handle) => {
    const known = prepared.get(handle)
    if (known !== undefined) return known
    const fresh = prepare(handle)
    prepared.set(handle, fresh)
    return fresh
  }
}

/** Runs `work` as one transaction that no other writer can cut into; all of it is kept, or nothing when it throws. */
export function inTransaction<T>(writer: Handle, work: () => T): T {
  return writer.sqlite.transaction(work).immediate()
}

/**
 * Takes the write-ahead log into the database file and leaves it empty, so that nothing of what was there before stays in it.
 *
 * @returns false while somebody reads an older state, as when a copy is being made: to be tried again
 */
export function emptyLog({ sqlite }: Handle): boolean {
  // Waiting for them would hold up the host.
  sqlite.pragma('busy_timeout = 0')
  try {
    const [done] = sqlite.pragma('wal_checkpoint(TRUNCATE)') as readonly { readonly busy: number }[]
    return done?.busy === 0
  } finally {
    sqlite.pragma(`busy_timeout = ${BUSY_MS}`)
  }
}

/** What SQLite finds wrong with the structure of the file, in its words; nothing where it is sound. Reads all of it. */
export function damagesIn({ sqlite }: Handle): readonly string[] {
  const rows = sqlite.pragma('integrity_check') as readonly { readonly integrity_check: string }[]
  return rows.map(({ integrity_check: text }) => text).filter((text) => text !== 'ok')
}

/** Of pages of the file, for each connection. The system keeps more of them beside it, so that 16 MB are no faster. */
const CACHE_KIB = 4_096

function toHandle(sqlite: Sqlite.Database): Handle {
  sqlite.pragma(`cache_size = -${CACHE_KIB}`)
  return { sqlite, orm: drizzle({ client: sqlite }) }
}
