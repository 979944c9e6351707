import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { beforeMigrationFolder } from './data-paths.ts'
import { DatabaseProblem, isSqliteError } from './database-problem.ts'
import { damagesIn, openReader, type Handle } from './handle.ts'
import { stampOf } from './stamp-of.ts'
import { isSystemError } from './system-error.ts'

/** How many of them stay. */
const KEPT = 2

/**
 * Keeps the database as it stands, verified, before its tables are changed: photos and reports do not change with them. To
 * go back, the older program is started on a folder that has this file in place of its own.
 *
 * @param now epoch milliseconds
 * @returns the file
 * @throws DatabaseProblem when it cannot be kept: nothing may be changed then
 */
export function keepBeforeMigration(writer: Handle, dataDir: string, version: number, now: number): string {
  const top = beforeMigrationFolder(dataDir)
  const folder = join(top, `${String(version).padStart(4, '0')}-${stampOf(now)}`)
  const temporary = `${folder}.part`
  try {
    rmSync(temporary, { recursive: true, force: true })
    mkdirSync(temporary, { recursive: true })
    const path = join(temporary, 'workshop.db')
    writer.sqlite.prepare('VACUUM INTO ?').run(path)
    requireSame(writer, path)
    sync(path)
    sync(temporary)
    renameSync(temporary, folder)
    sync(top)
    dropOlder(top)
    return join(folder, 'workshop.db')
  } catch (error) {
    throw problemOf(error)
  }
}

/** @throws Error when the kept file is damaged or another one */
function requireSame(writer: Handle, path: string): void {
  const kept = openReader(path)
  try {
    if (damagesIn(kept).length > 0)
      throw new DatabaseProblem(cannot('it reads otherwise than it was written'))
    const rows = ({ sqlite }: Handle) =>
      ['journal', 'payload', 'photo', 'contact'].map((table) =>
        sqlite.prepare(`SELECT count(*) FROM ${table}`).pluck().get(),
      )
    if (String(rows(kept)) !== String(rows(writer)))
      throw new DatabaseProblem(cannot('rows are missing in it'))
  } finally {
    kept.sqlite.close()
  }
}

/** By the time in their names, whatever version they are of. */
function dropOlder(top: string): void {
  const names = readdirSync(top)
    .filter((name) => !name.endsWith('.part'))
    .toSorted((a, b) => (timeIn(a) < timeIn(b) ? -1 : 1))
  for (const name of names.slice(0, -KEPT)) rmSync(join(top, name), { recursive: true })
}

const timeIn = (name: string): string => name.slice(name.indexOf('-') + 1)

/** Windows has no way to sync what is opened for reading, and none to sync a folder. */
function sync(path: string): void {
  if (process.platform === 'win32') return
  const file = openSync(path, 'r')
  try {
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}

function problemOf(error: unknown): Error {
  if (isSystemError(error)) return new DatabaseProblem(cannot(error.code))
  if (isSqliteError(error)) return new DatabaseProblem(cannot(error.code))
  return error instanceof Error ? error : new Error(String(error))
}

const cannot = (why: string): string =>
  `This Panelwright is newer and has to change the tables of the workshop, but the copy that is kept before that could not be made (${why}). Nothing was changed. Make room on the disk of the data folder, see that it may be written to, and start again; the older program still works on it.`
