import Sqlite from 'better-sqlite3'
import { ok, refuse, type Refusal, type Result } from '../domain/refusal.ts'
import { isSystemError } from './system-error.ts'

/** Why a data folder cannot be used; the message is for people and says what to do. */
export class DatabaseProblem extends Error {
  override readonly name = 'DatabaseProblem'
}

/** True for what SQLite itself reports, as against a defect of the program. */
export function isSqliteError(error: unknown): error is InstanceType<typeof Sqlite.SqliteError> {
  return error instanceof Sqlite.SqliteError
}

/** What the person is told when the disk fails in the middle of a command; null when it is something else. */
export function storageRefusal(error: unknown): Refusal | null {
  const code = isSqliteError(error) ? error.code : ''
  const found = STORAGE_FAILURES.find(([start]) => code.startsWith(start))
  return found ? refuse('storage', found[1], found[2]).refusal : null
}

/**
 * Does what writes to the database; refused, in words for people, where its disk is full or fails.
 *
 * @throws what is a defect
 */
export function tryToStore(work: () => void): Result<true> {
  try {
    work()
    return ok(true)
  } catch (error) {
    const refusal = storageRefusal(error)
    if (refusal === null) throw error
    return { ok: false, refusal }
  }
}

/** An opening that failed, as a problem with a message for people; anything else is thrown on as it is. */
export function openingProblem(error: unknown, path: string): Error {
  if (isSystemError(error))
    return new DatabaseProblem(
      `The data folder cannot be used (${error.message}). Check that its disk is attached and that this account may write to it.`,
    )
  if (error instanceof DatabaseProblem || !isSqliteError(error))
    return error instanceof Error ? error : new Error(String(error))
  if (error.code === 'SQLITE_NOTADB' || error.code.startsWith('SQLITE_CORRUPT'))
    return new DatabaseProblem(
      `${path} is damaged or is not a Panelwright database. Keep the folder as it is and restore the newest copy into an empty one.`,
    )
  const failure = STORAGE_FAILURES.find(([start]) => error.code.startsWith(start))
  return new DatabaseProblem(
    failure ? `${path}: ${failure[1]} ${failure[2]}` : `${path} cannot be opened: ${error.message}.`,
  )
}

/** SQLite's result codes by their beginning, with what they mean in the workshop and what can be done. */
const STORAGE_FAILURES = [
  ['SQLITE_FULL', 'The disk with the data folder is full.', 'Make room on it and try again.'],
  [
    'SQLITE_READONLY',
    'The data folder cannot be written to.',
    'Check that its disk is attached and that this account may write to it, then try again.',
  ],
  [
    'SQLITE_CANTOPEN',
    'The database cannot be opened.',
    'Check that the data folder is there and that this account may use it, then try again.',
  ],
  [
    'SQLITE_IOERR',
    'The disk with the data folder failed.',
    'Check that it is attached and sound, then try again. Nothing of this was recorded.',
  ],
  [
    'SQLITE_BUSY',
    'Another program is writing to the data folder.',
    'Wait until it has finished, then try again.',
  ],
  [
    'SQLITE_CORRUPT',
    'The database is damaged.',
    'Stop working in it, keep the folder as it is and restore the newest copy into an empty one.',
  ],
] as const
