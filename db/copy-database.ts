import Sqlite from 'better-sqlite3'
import { DatabaseProblem } from './database-problem.ts'
import { databasePath } from './data-paths.ts'
import { damagesIn, openReader, type Handle } from './handle.ts'
import { requireNewest } from './migrate.ts'
import { OF_THE_COMPUTER } from '../domain/whole/whole-shapes.ts'

/** Pages handed over between two looks at what else there is to do: 4 MB, some milliseconds. */
const PAGES_AT_ONCE = 1_000

export interface CopiedDatabase {
  /** Number of the last journal line. */
  readonly number: number
  /** Hash of the last line of each chain. */
  readonly heads: Readonly<Record<string, string>>
}

/**
 * Copies the database of a data folder by SQLite's online backup, as of one moment, while others go on writing: what is read
 * is held as one snapshot, so that no write makes it begin anew. Codes, devices, who is signed in and what is set for this
 * computer alone are taken out, free pages included. The copy is checked for itself and against the chains it was made from.
 *
 * @param to a file that is not there yet
 * @throws DatabaseProblem when the copy is not sound; what SQLite and the disk report
 */
export async function copyDatabase(
  dataDir: string,
  to: string,
  signal: AbortSignal,
): Promise<CopiedDatabase> {
  const source = openReader(databasePath(dataDir))
  try {
    requireNewest(source)
    source.sqlite.exec('BEGIN')
    const copied = readHeads(source)
    if (copied.number === 0)
      throw new DatabaseProblem(`There is no workshop in ${dataDir} yet that could be copied.`)
    await source.sqlite.backup(to, {
      progress: () => {
        signal.throwIfAborted()
        return PAGES_AT_ONCE
      },
    })
    source.sqlite.exec('COMMIT')
    takeOutSecrets(to)
    requireSound(to, copied)
    return copied
  } finally {
    source.sqlite.close()
  }
}

/** The number of the last line, and every chain's head. */
function readHeads({ sqlite }: Handle): CopiedDatabase {
  const last = sqlite.prepare('SELECT coalesce(max(number), 0) FROM journal').pluck().get() as number
  const lines = sqlite
    .prepare(
      'SELECT chain, hash FROM journal WHERE number IN (SELECT max(number) FROM journal GROUP BY chain) ORDER BY chain',
    )
    .all() as readonly { readonly chain: string; readonly hash: string }[]
  return { number: last, heads: Object.fromEntries(lines.map(({ chain, hash }) => [chain, hash])) }
}

/** @throws DatabaseProblem when the file is damaged, or its chains do not end where they should */
export function requireSound(path: string, { number, heads }: CopiedDatabase): void {
  const handle = openReader(path)
  try {
    const strays = handle.sqlite.pragma('foreign_key_check') as readonly unknown[]
    const [damage] = damagesIn(handle)
    if (damage !== undefined) throw new DatabaseProblem(`The copied database is damaged: ${damage}.`)
    if (strays.length > 0)
      throw new DatabaseProblem('The copied database holds a row that belongs to nothing.')
    const found = readHeads(handle)
    const names = Object.keys(heads)
    const isSame =
      found.number === number &&
      names.length === Object.keys(found.heads).length &&
      names.every((chain) => heads[chain] === found.heads[chain])
    if (!isSame) throw new DatabaseProblem('The copied journal does not end where the workshop’s did.')
  } finally {
    handle.sqlite.close()
  }
}

const STAYS_HERE = ['session', 'code_lock', 'code', 'device'] as const

/** Rebuilt without its free pages: a deleted row would otherwise still stand in the file. */
function takeOutSecrets(path: string): void {
  const sqlite = new Sqlite(path)
  try {
    sqlite.pragma('journal_mode = DELETE')
    sqlite.pragma('secure_delete = ON')
    for (const table of STAYS_HERE) sqlite.exec(`DELETE FROM ${table}`)
    const forget = sqlite.prepare('DELETE FROM setting WHERE name = ?')
    for (const name of OF_THE_COMPUTER) forget.run(name)
    sqlite.exec('VACUUM')
  } finally {
    sqlite.close()
  }
}
