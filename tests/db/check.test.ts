/** Over 300 lines because each kind of damage is done to the same example folder, one after the other. */
import { cpSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { checkDatabase } from '../../db/check.ts'
import { isClean, type CheckFinding } from '../../db/check-finding.ts'
import { databasePath, photosFolder, reportsFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { openDatabase } from '../../db/open-database.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { originalPath } from '../../db/photos/photo-files.ts'
import { openPhotoReader, openPhotoStore, type StoredPhoto } from '../../db/photos/photo-store.ts'
import { reportPath, storeReport } from '../../db/report-files.ts'
import type { CarId } from '../../domain/ids.ts'
import { createTestPhoto } from '../support/images.ts'
import { createWorkshop, firstMorning } from '../support/workshop.ts'
import { recordEveryKind } from './every-kind.ts'
import { flip, flipAt, rehash, tamper } from './tamper.ts'

/** Every kind of fact, three real photos and an issued report, in a folder that nobody has open. */
interface Example {
  readonly dataDir: string
  readonly carId: CarId
  readonly photos: readonly string[]
  readonly report: string
  readonly page: string
}

let example: Example
/** Each test has its own copy of the example. */
let dataDir: string

beforeAll(async () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const folder = workshop.dataDir ?? ''
  const photos = []
  for (const color of ['#933', '#777', '#345']) photos.push(await receive(workshop.db, color))
  const report = await storeReport(reportsFolder(folder), 'pdf', Buffer.from('%PDF-1.7 a report'))
  const page = await storeReport(reportsFolder(folder), 'html', Buffer.from('<!doctype html>a report'))
  const carId = recordEveryKind(workshop, photos, report, page)
  workshop.db.close()
  example = { dataDir: folder, carId, photos, report, page }
})

afterAll(() => {
  rmSync(example.dataDir, { recursive: true })
})

beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), 'check-'))
  cpSync(example.dataDir, dataDir, { recursive: true })
})

afterEach(() => {
  rmSync(dataDir, { recursive: true })
})

async function receive(db: Database, color: string): Promise<string> {
  return recordPhoto(db, await store(db.dataDir ?? '', color), firstMorning).sha256
}

async function store(folder: string, color: string): Promise<StoredPhoto> {
  const opened = await openPhotoStore(photosFolder(folder), { inspect: inspectPhoto })
  if (!opened.ok) throw new Error(opened.problem.message)
  const stored = await opened.value.add(await createTestPhoto({ width: 60, height: 40, color }))
  if (!stored.ok) throw new Error(stored.problem.message)
  return stored.value
}

/** As `npm run check` does: on a connection that cannot write. */
async function check(): Promise<readonly CheckFinding[]> {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    return await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
  } finally {
    db.close()
  }
}

async function faults(): Promise<readonly string[]> {
  const findings = await check()
  expect(isClean(findings)).toBe(false)
  for (const { meaning, todo } of findings) expect(`${meaning}${todo}`).not.toBe('')
  return findings.filter(({ severity }) => severity === 'fault').map(({ what }) => what)
}

describe('a workshop in which nothing is wrong', () => {
  test('has no findings, even after every kind of fact', async () => {
    expect(await check()).toEqual([])
  })

  test('has none before its first fact either', async () => {
    const empty = createWorkshop({ keptIn: 'folder', setUp: false })
    const opened = await openPhotoStore(photosFolder(empty.dataDir ?? ''), { inspect: inspectPhoto })
    expect(opened.ok && (await checkDatabase(empty.db, opened.value))).toEqual([])
    empty.close()
  })

  test('is only read', async () => {
    const before = readFileSync(databasePath(dataDir))
    await check()
    expect(readFileSync(databasePath(dataDir)).equals(before)).toBe(true)
  })

  test('may hold photos that were sent and not used: they are noted, and are no fault', async () => {
    const unrecorded = await store(dataDir, '#55a')
    const db = openDatabase(dataDir)
    const unused = await receive(db, '#9a3')
    db.close()
    const findings = await check()
    expect(isClean(findings)).toBe(true)
    expect(findings.map(({ severity, what }) => [severity, what])).toEqual([
      ['note', `The photo ${unrecorded.sha256.slice(0, 12)} lies in the folder without a record.`],
      ['note', `The photo ${unused.slice(0, 12)} is attached to nothing.`],
    ])
  })
})

describe('one changed byte is found', () => {
  test('in a photo, which is named with its car', async () => {
    const path = originalPath(photosFolder(dataDir), example.photos[0]!)
    flipAt(path, Math.floor(statSync(path).size / 2))
    expect(await faults()).toEqual([
      `The photo ${example.photos[0]!.slice(0, 12)} is not what was stored: its bytes have changed on the disk. (on S-101)`,
    ])
  })

  test('in a payload, by its text in the raw file', async () => {
    flip(databasePath(dataDir), 'The owner is abroad')
    expect(await faults()).toEqual([
      expect.stringMatching(
        /^Line \d+ of the journal, of the car car-s-101: its payload is not what was recorded\.$/,
      ),
    ])
  })

  // Every column of a line is under its hash, so each is tried.
  test.each([
    'kind',
    'visit_id',
    'person_id',
    'device_id',
    'command_id',
    'happened',
    'made',
    'recorded',
    'digest',
  ])('in the %s of a line', async (column) => {
    tamper(dataDir, (sqlite) =>
      sqlite.exec(`UPDATE journal SET ${column} = ${column} || '0' WHERE number = 40`),
    )
    expect(await faults()).toContainEqual(
      expect.stringMatching(/^Line 40 of the journal.*its hash is not that of what it says\.$/),
    )
  })

  test.each(['version', 'chain_number'])('in the %s of a line', async (column) => {
    tamper(dataDir, (sqlite) =>
      sqlite.exec(`UPDATE journal SET ${column} = ${column} + 1000 WHERE number = 40`),
    )
    expect(await faults()).toContainEqual(expect.stringMatching(/^Line 40 of the journal.*its hash is not/))
  })

  test('in the hash of a line: that line and the one after it no longer fit', async () => {
    tamper(dataDir, (sqlite) =>
      sqlite.exec(
        `UPDATE journal SET hash = iif(hash LIKE 'f%', '0', 'f') || substr(hash, 2) WHERE number = 41`,
      ),
    )
    const found = await faults()
    expect(found).toContainEqual(expect.stringMatching(/^Line 41 .*its hash is not that of what it says/))
    expect(found).toContainEqual(expect.stringMatching(/^Line 42 .*does not name the line before it/))
  })

  test('in an issued report', async () => {
    const path = reportPath(reportsFolder(dataDir), 'pdf', example.report)
    flip(path, 'report')
    expect(await faults()).toEqual([
      'The report report-week-48 of 2026-W48 is missing or is not what was issued.',
    ])
  })

  test('in the page of an issued report', async () => {
    rmSync(reportPath(reportsFolder(dataDir), 'html', example.page))
    expect(await faults()).toEqual([
      'The page of the report report-week-48 of 2026-W48 is missing or is not what was issued.',
    ])
  })

  test('in what is kept of a plan', async () => {
    tamper(dataDir, (sqlite) =>
      sqlite.exec(
        `UPDATE kept_plan SET content = CAST(substr(content, 1, length(content) - 1) || x'00' AS BLOB) WHERE plan_id = 'plan-second'`,
      ),
    )
    expect(await faults()).toEqual(['The plan plan-second is not what was kept.'])
  })

  test('in the structure of the database file', async () => {
    // The first byte of a page of a table's tree is its kind, 2, 5, 10 or 13 (SQLite file format, 1.6); no pair of these
    // differs in the lowest bit.
    flipAt(databasePath(dataDir), 4096 * 5)
    expect((await faults()).join('\n')).toMatch(/database (file is damaged|cannot be read)/)
  })
})

describe('what was taken out, put in or written anew is found', () => {
  test('a line in the middle', async () => {
    tamper(dataDir, (sqlite) =>
      sqlite.exec('DELETE FROM payload WHERE number = 40; DELETE FROM journal WHERE number = 40'),
    )
    const found = await faults()
    expect(found).toContainEqual(expect.stringMatching(/^Line 41 .*line 40 is missing before it/))
    expect(found).toContainEqual(expect.stringMatching(/does not name the line before it in its chain/))
  })

  test('a payload', async () => {
    tamper(dataDir, (sqlite) => sqlite.exec('DELETE FROM payload WHERE number = 40'))
    expect(await faults()).toContainEqual(expect.stringMatching(/^Line 40 .*its payload is missing/))
  })

  test('the last lines', async () => {
    tamper(dataDir, (sqlite) => {
      sqlite.pragma('foreign_keys = OFF')
      sqlite.exec(`DELETE FROM journal WHERE number > 100; DELETE FROM payload WHERE number > 100`)
    })
    expect(await faults()).toContainEqual(
      expect.stringMatching(/^The journal ends at line 100, but had \d+ lines/),
    )
  })

  test('a chain that was written anew from a changed line on, with every hash put right', async () => {
    tamper(dataDir, (sqlite) => {
      sqlite.exec(`UPDATE journal SET happened = '2026-11-22T08:00:00+01:00' WHERE number = 40`)
      rehash(sqlite, example.carId)
    })
    const found = await faults()
    // The links in the chain of the workshop and the head on the issued report still name the old hashes.
    expect(found).toContainEqual(expect.stringMatching(/of the workshop: a chain is not what it was when/))
    expect(found).toContainEqual(
      expect.stringMatching(/the head that the issued report prints is not in the chain/),
    )
  })

  test('the answer to a command', async () => {
    tamper(dataDir, (sqlite) =>
      sqlite.exec(`UPDATE command_answer SET numbers = '[7]' WHERE command_id = 'command-20'`),
    )
    expect(await faults()).toEqual([
      'The answer to the command command-20 does not name the lines that it left.',
    ])
  })

  test.each([
    [
      'a car',
      `UPDATE car SET bay_id = 'bay-jig-1' WHERE id = 'car-s-101'`,
      'The table of cars does not say of car-s-101',
    ],
    ['a booking', `DELETE FROM booking`, 'The table of bookings does not say of booking-first'],
    [
      'a time entry',
      `UPDATE time_entry SET started = 0 WHERE id = 'entry-sweeping'`,
      'entries does not say of entry-',
    ],
    [
      'an attachment',
      `INSERT INTO attachment SELECT 'attachment-none', car_id, sha256 FROM attachment LIMIT 1`,
      'The table of attachments does not say of attachment-none',
    ],
    [
      'a report',
      `UPDATE report SET week = '2026-W47'`,
      'The table of reports does not say of report-week-48',
    ],
    [
      'a finished repair',
      `UPDATE finished_repair SET actual = actual + 1`,
      'The table of repairs does not say of car-s-101 repair-boot-floor',
    ],
    [
      'a sum of hours',
      `UPDATE variance_sum SET spent = spent + 1 WHERE grouped_by = 'gate'`,
      'The table of variance does not say of car-s-101',
    ],
    [
      'what a payer has authorised',
      `DELETE FROM planned_amount WHERE amount_id = (SELECT min(amount_id) FROM planned_amount)`,
      'The table of variance does not say of car-s-101',
    ],
  ])('%s in a derived table', async (_name, change, words) => {
    tamper(dataDir, (sqlite) => sqlite.exec(change))
    expect(await faults()).toEqual([expect.stringContaining(words)])
  })

  test('a photo file that is gone', async () => {
    rmSync(originalPath(photosFolder(dataDir), example.photos[2]!))
    expect(await faults()).toEqual([
      `The photo ${example.photos[2]!.slice(0, 12)} is not in the photo folder. (on S-101)`,
    ])
  })

  test('the record of a photo', async () => {
    tamper(dataDir, (sqlite) => sqlite.prepare('DELETE FROM photo WHERE sha256 = ?').run(example.photos[1]))
    expect(await faults()).toEqual([
      `The photo ${example.photos[1]!.slice(0, 12)} (on S-101) was never received.`,
    ])
  })

  test('the length of a photo', async () => {
    const { size } = statSync(originalPath(photosFolder(dataDir), example.photos[0]!))
    tamper(dataDir, (sqlite) =>
      sqlite.prepare('UPDATE photo SET bytes = ? WHERE sha256 = ?').run(size + 1, example.photos[0]),
    )
    expect(await faults()).toEqual([
      `The photo ${example.photos[0]!.slice(0, 12)} has another length than was recorded.`,
    ])
  })

  test('a whole photo folder', async () => {
    rmSync(join(photosFolder(dataDir), 'originals'), { recursive: true })
    expect((await faults()).length).toBeGreaterThanOrEqual(3)
  })
})
