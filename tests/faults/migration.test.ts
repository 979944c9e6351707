import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import { readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import Sqlite from 'better-sqlite3'
import { checkDatabase } from '../../db/check.ts'
import { databasePath, photosFolder } from '../../db/data-paths.ts'
import { openWriter } from '../../db/handle.ts'
import { lastNumber } from '../../db/journal.ts'
import { isRebuildDue, migrate, readMigrations } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open-database.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import { makeOlder } from '../support/older-database.ts'
import { createWorkshop } from '../support/workshop.ts'

let dataDir: string
let lines: number
beforeEach(() => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  workshop.addCar()
  lines = lastNumber(workshop.db)
  workshop.db.close()
  dataDir = workshop.dataDir ?? ''
})
afterEach(() => {
  rmSync(dataDir, { recursive: true })
})

/** What the next start finds: its lines, its version and what the check says. */
async function startAgain() {
  const db = openDatabase(dataDir)
  try {
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
    const version = db.writer.sqlite.pragma('user_version', { simple: true })
    const faults = findings.filter(({ severity }) => severity === 'fault').map(({ what }) => what)
    return { lines: lastNumber(db), version, faults: faults.filter((what) => !what.includes('photo folder')) }
  } finally {
    db.close()
  }
}

const sound = () => ({ lines, version: readMigrations().length, faults: [] })

describe('a migration that is cut short', () => {
  // From the first version whose tables hold a journal of today, and from the last but one.
  test.each([readMigrations().length - 1, 5])(
    'by a kill in the middle of a step after version %i goes on with the next start',
    { timeout: 60_000 },
    async (version) => {
      makeOlder(dataDir, version)
      const child = fileURLToPath(new URL('migrate-child.ts', import.meta.url))
      const migrating = spawn(process.execPath, [child, dataDir, String(version + 1)], { stdio: 'inherit' })
      const ended = once(migrating, 'exit')
      const wal = `${databasePath(dataDir)}-wal`
      await expect
        .poll(() => statSync(wal, { throwIfNoEntry: false })?.size ?? 0, { timeout: 30_000 })
        .toBeGreaterThan(4_000_000)
      migrating.kill('SIGKILL')
      expect(await ended).toEqual([null, 'SIGKILL'])
      expect(await startAgain()).toEqual(sound())
    },
  )

  test('by a kill before the tables were made anew makes them with the next start', async () => {
    makeOlder(dataDir, 5)
    const writer = openWriter(databasePath(dataDir))
    migrate(writer)
    writer.sqlite.exec('DELETE FROM variance_sum; DELETE FROM booking; DELETE FROM car')
    expect(isRebuildDue(writer)).toBe(true)
    writer.sqlite.close()
    expect(await startAgain()).toEqual(sound())
    const again = openWriter(databasePath(dataDir))
    expect(isRebuildDue(again)).toBe(false)
    again.sqlite.close()
  })
})

describe('a database of a newer program', () => {
  const digests = () =>
    readdirSync(dataDir, { recursive: true, encoding: 'utf8', withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => join(parentPath, name))
      .toSorted()
      .map((path) => [path, createHash('sha256').update(readFileSync(path)).digest('hex')])

  test('is refused in words, and not one byte of the folder changes', () => {
    const raw = new Sqlite(databasePath(dataDir))
    raw.pragma(`user_version = ${readMigrations().length + 1}`)
    raw.close()
    const before = digests()
    expect(() => openDatabase(dataDir)).toThrow(
      /newer Panelwright.*Install the newer program; nothing was changed/,
    )
    expect(digests()).toEqual(before)
  })
})
