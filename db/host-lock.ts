import { mkdirSync } from 'node:fs'
import { dirname } from 'node:path'
import Sqlite from 'better-sqlite3'
import { DatabaseProblem, isSqliteError } from './database-problem.ts'

/**
 * Claims a data folder for one host: two would clear each other's uploads. The claim is a lock that the operating system
 * drops when its process ends, however it ends, so that a killed host leaves nothing to tidy up.
 *
 * @param taken what is said when another has it
 * @returns what gives the folder free again
 * @throws DatabaseProblem when another host has it
 */
export function claimFolder(lockPath: string, taken: string = RUNNING): () => void {
  mkdirSync(dirname(lockPath), { recursive: true, mode: 0o700 })
  const lock = new Sqlite(lockPath, { timeout: 0 })
  try {
    lock.exec('BEGIN EXCLUSIVE')
  } catch (error) {
    lock.close()
    if (isSqliteError(error) && error.code === 'SQLITE_BUSY') throw new DatabaseProblem(taken)
    throw error
  }
  return () => lock.close()
}

const RUNNING =
  'Panelwright is running on this data folder already. Use its window, or end it before you start another.'
