/** Over 300 lines because each kind of damage is done to the same example folder, and mended. */
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import Sqlite from 'better-sqlite3'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { isClean, type CheckFinding } from '../../db/check-finding.ts'
import { checkFolder, LEFT_AFTER_MS } from '../../db/check-folder.ts'
import { broughtInFolder, databasePath, photosFolder, reportsFolder } from '../../db/data-paths.ts'
import { mendFindings, type CopiedFiles, type Mended } from '../../db/mend.ts'
import { openDatabase } from '../../db/open-database.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { originalPath, sizePath } from '../../db/photos/photo-files.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import { makeSizes } from '../../db/photos/sizes.ts'
import { reportPath, storeReport } from '../../db/report-files.ts'
import { keepKey } from '../../electron/copies/kept-key.ts'
import { makeCopy } from '../../electron/copies/make-copy.ts'
import { createCopyKey, sealedWith } from '../../electron/copies/sealing.ts'
import { AS_IT_IS } from '../../electron/copies/wrapping.ts'
import { openCopiedFiles } from '../../electron/check/copied-files.ts'
import { createTestPhoto } from '../support/images.ts'
import { createWorkshop, firstMorning } from '../support/workshop.ts'
import { recordEveryKind } from './every-kind.ts'
import { flipAt } from './tamper.ts'

/** Every kind of fact, three photos with their sizes and an issued report, in a folder that nobody has open. */
let example: { readonly dataDir: string; readonly photos: readonly string[]; readonly report: string }
/** Each test has its own copy of the example. */
let dataDir: string
const now = Date.now()

beforeAll(async () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const folder = workshop.dataDir ?? ''
  const photos = photosFolder(folder)
  const store = await openPhotoStore(photos, { inspect: inspectPhoto })
  if (!store.ok) throw new Error(store.problem.message)
  const digests: string[] = []
  for (const color of ['#933', '#777', '#345']) {
    const stored = await store.value.add(await createTestPhoto({ width: 60, height: 40, color }))
    if (!stored.ok) throw new Error(stored.problem.message)
    digests.push(recordPhoto(workshop.db, stored.value, firstMorning).sha256)
    await makeSizes(photos, stored.value.sha256)
  }
  const report = await storeReport(reportsFolder(folder), 'pdf', Buffer.from('%PDF-1.7 a report'))
  const page = await storeReport(reportsFolder(folder), 'html', Buffer.from('<!doctype html>a report'))
  recordEveryKind(workshop, digests, report, page)
  workshop.db.close()
  example = { dataDir: folder, photos: digests, report }
})
afterAll(() => {
  rmSync(example.dataDir, { recursive: true })
})
beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), 'mend-'))
  cpSync(example.dataDir, dataDir, { recursive: true })
})
afterEach(() => {
  rmSync(dataDir, { recursive: true })
})

async function check(leftBefore = now + 60_000): Promise<readonly CheckFinding[]> {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    return await checkFolder(db, dataDir, { leftBefore })
  } finally {
    db.close()
  }
}

async function mend(copies: CopiedFiles | null = null): Promise<readonly Mended[]> {
  const findings = await check()
  const db = openDatabase(dataDir)
  try {
    return await mendFindings(findings, {
      db,
      dataDir,
      makeSizes: (sha256) => makeSizes(photosFolder(dataDir), sha256),
      copies,
      now,
    })
  } finally {
    db.close()
  }
}

const words = (findings: readonly CheckFinding[]) => findings.map(({ what }) => what)
const photo = () => example.photos[0] ?? ''
const original = () => originalPath(photosFolder(dataDir), photo())
const thumb = () => sizePath(photosFolder(dataDir), photo(), 'thumb')

function damage(path: string): Buffer {
  const whole = readFileSync(path)
  flipAt(path, Math.floor(whole.length / 2))
  return whole
}

/** The journal as it lies in the database, line by line with its payloads. */
function journalOf(folder: string): unknown {
  const sqlite = new Sqlite(databasePath(folder), { readonly: true })
  const lines = sqlite.prepare('SELECT * FROM journal JOIN payload USING (number) ORDER BY number').all()
  sqlite.close()
  return lines
}

describe('sizes of photos', () => {
  test('a folder with all of them has no findings', async () => {
    expect(await check()).toEqual([])
  })

  test('that are missing are noted as one, and mending makes them', async () => {
    for (const sha256 of example.photos) rmSync(sizePath(photosFolder(dataDir), sha256, 'screen'))
    const findings = await check()
    expect(words(findings)).toEqual(['3 photos have not all sizes for screens.'])
    expect(isClean(findings)).toBe(true)
    expect((await mend()).map(({ isMended }) => isMended)).toEqual([true])
    expect(await check()).toEqual([])
  })

  test('one that breaks off in the middle is a fault, and mending makes it anew', async () => {
    const whole = readFileSync(thumb())
    writeFileSync(thumb(), whole.subarray(0, whole.length / 2))
    const findings = await check()
    expect(words(findings)).toEqual([
      `A size for screens of the photo ${photo().slice(0, 12)} cannot be read.`,
    ])
    expect(isClean(findings)).toBe(false)
    await mend()
    expect(readFileSync(thumb()).equals(whole)).toBe(true)
    expect(await check()).toEqual([])
  })

  test('stay as they are where the original is damaged: they may be the last that is left of it', async () => {
    const before = readFileSync(thumb())
    damage(original())
    expect((await mend()).map(({ isMended }) => isMended)).toEqual([false])
    expect(readFileSync(thumb()).equals(before)).toBe(true)
  })
})

describe('files that nothing refers to', () => {
  const stray = (...place: readonly string[]): string => {
    const path = join(dataDir, ...place)
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, 'half of it')
    return path
  }

  test('are noted when they were left half-written, and mending removes them', async () => {
    const left = [
      stray('photos', 'incoming', 'a.part'),
      stray('reports', 'b.part'),
      stray('brought-in', 'c.part'),
      stray('private', 'taking-in', 'workshop.zip'),
      stray('photos', 'derived', `${'0'.repeat(64)}-thumb.webp`),
    ]
    const findings = await check()
    expect(words(findings)).toHaveLength(left.length)
    expect(isClean(findings)).toBe(true)
    await mend()
    expect(left.filter((path) => existsSync(path))).toEqual([])
    expect(await check()).toEqual([])
  })

  test('belong to a host at work while they are younger than a day', async () => {
    const path = stray('photos', 'incoming', 'a.part')
    expect(await check(now - LEFT_AFTER_MS)).toEqual([])
    const yesterday = (now - LEFT_AFTER_MS - 60_000) / 1_000
    utimesSync(path, yesterday, yesterday)
    expect(words(await check(now - LEFT_AFTER_MS))).toEqual([
      'The file photos/incoming/a.part was being written when the program ended.',
    ])
  })

  test('are noted and stay when they are reports that were not issued', async () => {
    const path = stray('reports', `${'0'.repeat(64)}.pdf`)
    expect(words(await check())).toEqual([
      'The file 000000000000 of the reports belongs to no issued report.',
    ])
    await mend()
    expect(existsSync(path)).toBe(true)
  })
})

describe('derived tables', () => {
  const change = (sql: string) => {
    const sqlite = new Sqlite(databasePath(dataDir))
    sqlite.exec(sql)
    sqlite.close()
  }

  test('are made anew from the journal, which stays as it is', async () => {
    change(`UPDATE car SET bay_id = 'bay-jig-1'; DELETE FROM booking; DELETE FROM finished_repair`)
    const before = journalOf(dataDir)
    const mended = await mend()
    expect(mended.length).toBeGreaterThan(2)
    expect(mended.every(({ isMended }) => isMended)).toBe(true)
    expect(await check()).toEqual([])
    expect(journalOf(dataDir)).toEqual(before)
  })

  test('are left where the journal itself was changed: its damage would be passed on', async () => {
    change(`DROP TRIGGER payloads_do_not_change; DELETE FROM booking;
      UPDATE payload SET json = replace(json, 'The owner is abroad', 'The owner is at home')`)
    expect(await mend()).toEqual([])
    expect(words(await check())).toContainEqual(expect.stringContaining('The table of bookings'))
  })
})

describe('a damaged original', () => {
  let copies: string
  beforeEach(() => {
    copies = mkdtempSync(join(tmpdir(), 'copies-'))
  })
  afterEach(() => {
    rmSync(copies, { recursive: true })
  })

  const copied = (sha256: string, bytes: Uint8Array, workshop = 'workshop-0123456789ab') => {
    const path = join(copies, 'panelwright-copies', workshop, 'files', sha256.slice(0, 2), sha256)
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, bytes)
  }

  test('is taken from a copy, and the damaged one is set aside', async () => {
    const whole = damage(original())
    const damaged = readFileSync(original())
    copied(photo(), whole)
    const mended = await mend(openCopiedFiles(copies, dataDir))
    expect(mended.map(({ words: said }) => said)).toEqual([
      'It was taken from a copy and is what was recorded.',
    ])
    expect(readFileSync(original()).equals(whole)).toBe(true)
    const aside = join(photosFolder(dataDir), 'set-aside')
    expect(readdirSync(aside).map((name) => readFileSync(join(aside, name)).equals(damaged))).toEqual([true])
    expect(await check()).toEqual([])
  })

  test('is looked for in the next copy where the first has other bytes', async () => {
    const whole = damage(original())
    copied(photo(), readFileSync(original()), 'workshop-0000')
    copied(photo(), whole, 'workshop-1111')
    expect((await mend(openCopiedFiles(copies, dataDir))).map(({ isMended }) => isMended)).toEqual([true])
    expect(await check()).toEqual([])
  })

  test('stays where no copy has it whole, and nothing half-done is left', async () => {
    damage(original())
    const damaged = readFileSync(original())
    copied(photo(), damaged)
    const mended = await mend(openCopiedFiles(copies, dataDir))
    expect(mended.map(({ words: said }) => said)).toEqual([
      'No copy there has it whole. Look for an older copy, and keep this folder as it is.',
    ])
    expect(readFileSync(original()).equals(damaged)).toBe(true)
    expect(readdirSync(join(photosFolder(dataDir), 'incoming'))).toEqual([])
  })

  test('that is gone comes back, and so do an issued report and a journal that came with a car', async () => {
    const report = reportPath(reportsFolder(dataDir), 'pdf', example.report)
    const [journal = ''] = readdirSync(broughtInFolder(dataDir))
    const came = join(broughtInFolder(dataDir), journal)
    copied(photo(), readFileSync(original()))
    copied(example.report, readFileSync(report))
    copied(journal.slice(0, 64), readFileSync(came))
    for (const path of [original(), report, came]) rmSync(path)
    expect(isClean(await check())).toBe(false)
    expect((await mend(openCopiedFiles(copies, dataDir))).map(({ isMended }) => isMended)).toEqual([
      true,
      true,
      true,
    ])
    expect(await check()).toEqual([])
  })

  test.each([false, true])('comes from a copy that Panelwright made here, sealed: %s', async (isSealed) => {
    const key = await createCopyKey('correct horse battery staple')
    if (isSealed) keepKey(dataDir, key)
    const wrapping = isSealed ? sealedWith(key) : AS_IT_IS
    const made = await makeCopy({ dataDir, folder: copies, wrapping, now, isKnown: false })
    expect(made.ok || made.refusal).toBe(true)
    const whole = damage(original())
    expect((await mend(openCopiedFiles(copies, dataDir))).map(({ isMended }) => isMended)).toEqual([true])
    expect(readFileSync(original()).equals(whole)).toBe(true)
  })

  test('is left when no folder of copies is named', async () => {
    damage(original())
    expect((await mend()).map(({ words: said }) => said)).toEqual([
      'Name the folder of the copies, so that it can be taken from there.',
    ])
  })
})
