import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Sqlite from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { beforeMigrationFolder, databasePath } from '../../db/data-paths.ts'
import { factsSince } from '../../db/journal.ts'
import { openDatabase } from '../../db/open-database.ts'
import { makeOlder } from '../support/older-database.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'

let workshop: Workshop
const dataDir = () => workshop.dataDir!
const kept = () => readdirSync(beforeMigrationFolder(dataDir())).toSorted()

beforeEach(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
  workshop.addCar()
  workshop.db.close()
})
afterEach(() => {
  workshop.reopen()
  workshop.close()
})

const openAndClose = () => {
  const db = openDatabase(dataDir())
  const facts = factsSince(db, 0).length
  db.close()
  return facts
}

describe('a database of an older program', () => {
  test('is kept as it was before its tables are changed, and nothing is kept where nothing changes', () => {
    openAndClose()
    expect(readdirSync(dataDir())).not.toContain('before-migration')
    makeOlder(dataDir(), 5)
    const facts = openAndClose()
    expect(kept()).toEqual([expect.stringMatching(/^0005-\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ$/)])
    const sqlite = new Sqlite(join(beforeMigrationFolder(dataDir()), kept()[0]!, 'workshop.db'))
    expect(sqlite.pragma('user_version', { simple: true })).toBe(5)
    expect(sqlite.prepare('SELECT count(*) FROM journal').pluck().get()).toBe(facts)
    sqlite.close()
  })

  test('is kept twice at most, the last two times', () => {
    mkdirSync(join(beforeMigrationFolder(dataDir()), '0009-2024-01-01T00-00-00Z'), { recursive: true })
    mkdirSync(join(beforeMigrationFolder(dataDir()), '0003-2025-01-01T00-00-00Z'))
    makeOlder(dataDir(), 6)
    openAndClose()
    expect(kept()).toEqual(['0003-2025-01-01T00-00-00Z', expect.stringMatching(/^0006-/)])
  })

  test('is not touched where it cannot be kept', () => {
    makeOlder(dataDir(), 6)
    writeFileSync(beforeMigrationFolder(dataDir()), 'a file where the folder should be')
    expect(() => openDatabase(dataDir())).toThrow(
      /could not be made \(E\w+\)\. Nothing was changed\. Make room/,
    )
    const sqlite = new Sqlite(databasePath(dataDir()))
    expect(sqlite.pragma('user_version', { simple: true })).toBe(6)
    sqlite.close()
    rmSync(beforeMigrationFolder(dataDir()))
  })
})
