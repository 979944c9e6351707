import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import Sqlite from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { codeKeyPath, databasePath } from '../../db/data-paths.ts'
import { DatabaseProblem } from '../../db/database-problem.ts'
import { openWriter } from '../../db/handle.ts'
import { migrate, readMigrations, type Migration } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open-database.ts'
import { createWorkshop } from '../support/workshop.ts'

let dataDir: string

beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), 'open-'))
})

afterEach(() => {
  rmSync(dataDir, { recursive: true, force: true })
})

describe('opening a data folder', () => {
  test('a new one is made, with a write-ahead log, full syncing and foreign keys', () => {
    const db = openDatabase(join(dataDir, 'new', 'folder'))
    const pragma = (name: string) => db.writer.sqlite.pragma(name, { simple: true })
    expect(pragma('journal_mode')).toBe('wal')
    // 2 is FULL: a commit is on the disk before it is answered.
    expect(pragma('synchronous')).toBe(2)
    expect(pragma('foreign_keys')).toBe(1)
    expect(pragma('user_version')).toBe(readMigrations().length)
    db.close()
  })

  test('what was recorded is there again after it was closed and opened', () => {
    const workshop = createWorkshop({ keptIn: 'folder' })
    const carId = workshop.addCar('Larkspur 4')
    workshop.restart()
    expect(workshop.car(carId).name).toBe('Larkspur 4')
    workshop.close()
  })

  test('the reading connection cannot write', () => {
    const db = openDatabase(dataDir)
    expect(() => db.reader.sqlite.exec('DELETE FROM contact')).toThrow(/readonly/)
    db.close()
  })

  test('another process can read beside the host, and sees what the host has just recorded', () => {
    const workshop = createWorkshop({ keptIn: 'folder' })
    workshop.addCar('Larkspur 4')
    const beside = fileURLToPath(new URL('read-beside.ts', import.meta.url))
    const { stdout, stderr } = spawnSync(process.execPath, [beside, workshop.dataDir!], {
      encoding: 'utf8',
    })
    expect(stderr).toBe('')
    expect(stdout).toBe('Larkspur 4\n')
    workshop.close()
  })

  test('a second host on the same folder is refused, and may start once the first has ended', () => {
    const first = openDatabase(dataDir)
    expect(() => openDatabase(dataDir)).toThrow(/running on this data folder already/)
    first.close()
    openDatabase(dataDir).close()
  })

  test('the key of the codes lies apart from the database and is readable for its owner only', () => {
    openDatabase(dataDir).close()
    const key = readFileSync(codeKeyPath(dataDir))
    expect(key).toHaveLength(32)
    expect(readFileSync(databasePath(dataDir)).includes(key)).toBe(false)
    if (process.platform !== 'win32') expect(statSync(codeKeyPath(dataDir)).mode & 0o077).toBe(0)
    openDatabase(dataDir).close()
    expect(readFileSync(codeKeyPath(dataDir))).toEqual(key)
  })
})

describe('a data folder that cannot be used says what to do', () => {
  const problemOf = (open: () => unknown): string => {
    try {
      open()
    } catch (error) {
      expect(error).toBeInstanceOf(DatabaseProblem)
      return error instanceof Error ? error.message : ''
    }
    throw new Error('It opened.')
  }

  test('one written by a newer program is refused and left as it is', () => {
    openDatabase(dataDir).close()
    const raw = new Sqlite(databasePath(dataDir))
    raw.pragma('user_version = 99')
    raw.close()
    expect(problemOf(() => openDatabase(dataDir))).toMatch(/newer Panelwright.*Install the newer program/)
    expect(problemOf(() => openDatabase(dataDir, { readonly: true }))).toMatch(/newer Panelwright/)
    // A refused opening has let go of the folder: the next attempt fails for the same reason, not for a lock.
    expect(problemOf(() => openDatabase(dataDir))).toMatch(/newer Panelwright/)
  })

  test('an older one is not changed by a reader, which says who brings it up to date', () => {
    openDatabase(dataDir).close()
    const raw = new Sqlite(databasePath(dataDir))
    raw.pragma('user_version = 0')
    raw.close()
    expect(problemOf(() => openDatabase(dataDir, { readonly: true }))).toMatch(/Start the program on it once/)
  })

  test('a file that is no database', () => {
    writeFileSync(databasePath(dataDir), 'This is a shopping list, not a database. '.repeat(50))
    expect(problemOf(() => openDatabase(dataDir))).toMatch(/damaged or is not a Panelwright database/)
  })

  test('a folder without a workshop is not filled by a reader', () => {
    expect(problemOf(() => openDatabase(dataDir, { readonly: true }))).toMatch(/no workshop in/)
    expect(existsSync(databasePath(dataDir))).toBe(false)
  })

  test('a folder that cannot be made', () => {
    const file = join(dataDir, 'file')
    writeFileSync(file, '')
    expect(problemOf(() => openDatabase(join(file, 'inside')))).toMatch(/cannot be used.*Check that its disk/)
  })

  test('a damaged key of the codes', () => {
    openDatabase(dataDir).close()
    writeFileSync(codeKeyPath(dataDir), 'short')
    expect(problemOf(() => openDatabase(dataDir))).toMatch(/Move it away and start again/)
  })
})

describe('migrations', () => {
  const first: Migration = { version: 1, name: 'first', sql: 'CREATE TABLE a (x INTEGER) STRICT' }
  const second: Migration = {
    version: 2,
    name: 'second',
    sql: 'ALTER TABLE a ADD COLUMN y TEXT; INSERT INTO a (x, y) VALUES (1, NULL)',
  }

  test('each step is taken once, from wherever the database stands', () => {
    const writer = openWriter(':memory:')
    expect(migrate(writer, [first])).toBe(0)
    expect(migrate(writer, [first, second])).toBe(1)
    expect(migrate(writer, [first, second])).toBe(2)
    expect(writer.sqlite.prepare('SELECT * FROM a').all()).toEqual([{ x: 1, y: null }])
  })

  test('a step that fails leaves the database in the version before it', () => {
    const writer = openWriter(':memory:')
    migrate(writer, [first])
    const broken = { ...second, sql: `${second.sql}; INSERT INTO nowhere VALUES (1)` }
    expect(() => migrate(writer, [first, broken])).toThrow(/no such table: nowhere/)
    expect(writer.sqlite.pragma('user_version', { simple: true })).toBe(1)
    expect(writer.sqlite.prepare('SELECT * FROM a').all()).toEqual([])
    expect(migrate(writer, [first, second])).toBe(1)
  })

  test('the steps of the program are numbered from 1 without gaps', () => {
    const versions = readMigrations().map(({ version }) => version)
    expect(versions).toEqual(versions.map((_, index) => index + 1))
    expect(versions).not.toEqual([])
  })
})
