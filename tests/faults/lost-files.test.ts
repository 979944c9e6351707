import {
  cpSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { checkDatabase } from '../../db/check.ts'
import { databasePath, journalEndPath, photosFolder } from '../../db/data-paths.ts'
import { DatabaseProblem } from '../../db/database-problem.ts'
import { readEpoch } from '../../db/epoch.ts'
import { factsSince, lastNumber } from '../../db/journal.ts'
import { openDatabase } from '../../db/open-database.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'

/**
 * The folder of a workshop at work, as a killed host leaves it: the files of an open database are copied, so that what was
 * recorded last stands in the write-ahead log only.
 */
let workshop: Workshop
/** Lines that were in the database file itself, and all that were acknowledged. */
let inFile: number
let acknowledged: number
/** Each test has its own copy. */
let dataDir: string

beforeAll(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
  inFile = lastNumber(workshop.db)
  workshop.db.writer.sqlite.pragma('wal_checkpoint(TRUNCATE)')
  for (const number of [1, 2, 3]) workshop.addCar(`Larkspur ${number}`, `S-${number}`)
  acknowledged = lastNumber(workshop.db)
})
afterAll(() => workshop.close())
beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), 'crashed-'))
  cpSync(workshop.dataDir ?? '', dataDir, { recursive: true })
})
afterEach(() => {
  rmSync(dataDir, { recursive: true })
})

const wal = () => `${databasePath(dataDir)}-wal`

function problemOf(open: () => unknown): string {
  try {
    open()
  } catch (error) {
    expect(error).toBeInstanceOf(DatabaseProblem)
    return error instanceof Error ? error.message : ''
  }
  throw new Error('It opened.')
}

/** What the next start finds: the lines, and what the check says. */
async function startAgain() {
  const db = openDatabase(dataDir)
  try {
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
    const faults = findings.filter(({ severity }) => severity === 'fault').map(({ what }) => what)
    return {
      lines: factsSince(db, 0).length,
      epoch: readEpoch(db),
      faults: faults.filter((what) => !what.includes('photo folder')),
    }
  } finally {
    db.close()
  }
}

describe('after a kill', () => {
  test('the next start has all that was acknowledged', async () => {
    expect(acknowledged).toBeGreaterThan(inFile)
    expect(await startAgain()).toEqual({ lines: acknowledged, epoch: readEpoch(workshop.db), faults: [] })
  })

  test('the index of the write-ahead log may be deleted: it is made again', async () => {
    rmSync(`${databasePath(dataDir)}-shm`)
    expect((await startAgain()).lines).toBe(acknowledged)
  })

  test('the write-ahead log may be deleted once the host was closed well: everything is in the database', async () => {
    openDatabase(dataDir).close()
    rmSync(wal(), { force: true })
    expect(await startAgain()).toMatchObject({ lines: acknowledged, faults: [] })
  })

  test('a deleted write-ahead log is noticed, and nothing is begun without it', async () => {
    const bytes = readFileSync(wal())
    rmSync(wal())
    const problem = problemOf(() => openDatabase(dataDir))
    expect(problem).toContain(`ends at line ${inFile}, but line ${acknowledged} was recorded here`)
    expect(problem).toMatch(
      /Put workshop.db and workshop.db-wal back.*or restore the newest copy.*remove .*journal-end/,
    )
    // It is put back, as it says.
    rmSync(`${databasePath(dataDir)}-shm`, { force: true })
    writeFileSync(wal(), bytes)
    expect((await startAgain()).lines).toBe(acknowledged)
  })

  test('without it one can go on, as the message says: under another epoch, as screens know what is gone', async () => {
    rmSync(wal())
    rmSync(journalEndPath(dataDir))
    const { lines, epoch, faults } = await startAgain()
    expect(lines).toBe(inFile)
    expect(epoch).not.toBe(readEpoch(workshop.db))
    expect(faults).toEqual([])
  })

  test('a write-ahead log that was cut off is noticed', () => {
    truncateSync(wal(), Math.floor(statSync(wal()).size / 2))
    expect(problemOf(() => openDatabase(dataDir))).toContain(`line ${acknowledged} was recorded here`)
  })

  test('the check beside it says what is gone', async () => {
    rmSync(wal())
    const db = openDatabase(dataDir, { readonly: true })
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
    db.close()
    expect(findings.map(({ what }) => what)).toContainEqual(
      `The journal ends at line ${inFile}, but line ${acknowledged} was recorded here.`,
    )
  })
})

describe('a database file', () => {
  const settle = () => openDatabase(dataDir).close()

  test('that is gone is no new workshop', () => {
    settle()
    rmSync(databasePath(dataDir))
    expect(problemOf(() => openDatabase(dataDir))).toContain(
      `The database is empty, but line ${acknowledged} of its journal was recorded here.`,
    )
  })

  test('that is an older one of the same workshop is noticed', () => {
    const old = join(dataDir, 'old')
    cpSync(databasePath(dataDir), old)
    settle()
    cpSync(old, databasePath(dataDir))
    expect(problemOf(() => openDatabase(dataDir))).toContain(
      `ends at line ${inFile}, but line ${acknowledged}`,
    )
  })

  test.each([0.9, 0.5, 0.1])('that is cut off at %f of its length is told, and stays as it is', (share) => {
    settle()
    const path = databasePath(dataDir)
    truncateSync(path, Math.floor((statSync(path).size * share) / 4096) * 4096)
    const before = readFileSync(path)
    expect(problemOf(() => openDatabase(dataDir))).toMatch(
      /damaged or is not a Panelwright database. Keep the folder as it is and restore the newest copy/,
    )
    expect(readFileSync(path).equals(before)).toBe(true)
  })

  test('with random bytes in the middle of a page of the journal: the check names the damage', async () => {
    settle()
    const path = databasePath(dataDir)
    const bytes = readFileSync(path)
    const at =
      bytes.indexOf('setUpWorkshop') < 0 ? bytes.indexOf('workshopSetUp') : bytes.indexOf('setUpWorkshop')
    bytes.fill(0xa7, at, at + 600)
    writeFileSync(path, bytes)
    const db = openDatabase(dataDir, { readonly: true })
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
    db.close()
    expect(findings.filter(({ severity }) => severity === 'fault')).not.toEqual([])
    expect(findings[0]?.todo).toContain('restore the newest copy')
    expect(existsSync(path)).toBe(true)
  })
})
