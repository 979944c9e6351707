import { cpSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { checkDatabase } from '../../db/check.ts'
import { photosFolder } from '../../db/data-paths.ts'
import { factsSince } from '../../db/journal.ts'
import { openDatabase } from '../../db/open-database.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import type { CarId } from '../../domain/ids.ts'
import { openHostPhotos } from '../../electron/host-photos.ts'
import { mountSmallDisk, withoutRights, type SmallDisk } from '../support/disks.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../support/host.ts'
import { createTestPhoto } from '../support/images.ts'
import { choicesOf } from '../support/owner-report.ts'
import { bringInReported } from '../support/reported-car.ts'
import { manager } from '../support/workshop.ts'

const disk: SmallDisk | null = mountSmallDisk(24)

let host: TestHost
let screen: TestScreen
let carId: CarId
/** Journal numbers of all that was answered with success. */
const acknowledged: number[] = []
let photoCount = 0

beforeAll(async () => {
  const dataDir = disk === null ? null : join(disk.folder, 'data')
  host = await createTestHost(dataDir === null ? {} : { dataDir })
  screen = await host.openScreen()
  carId = (await bringInReported(host, screen)).carId
})
afterAll(async () => {
  await host.close()
  disk?.remove()
})

const dataDir = () => host.workshop.dataDir ?? ''

async function addNote() {
  const answer = await screen.send('addNote', { text: 'Rust behind the lamp. '.repeat(200) }, { carId })
  if (answer.ok) acknowledged.push(...answer.numbers)
  return answer.ok ? 'recorded' : answer.refusal
}

async function upload() {
  photoCount += 1
  const bytes = await createTestPhoto({ width: 400 + photoCount, height: 300, color: '#864' })
  const answer = await screen.upload(bytes)
  return { status: answer.status, body: (await answer.json()) as { readonly refusal?: unknown } }
}

const issue = () =>
  screen.client.issueReport.mutate({
    visitId: host.workshop.car(carId).currentVisit!,
    week: '2026-W48',
    choices: choicesOf({}),
    reportId: crypto.randomUUID() as never,
    commandId: crypto.randomUUID() as never,
  })

/** Whatever was answered is in the journal, and nothing is wrong with the folder. */
async function requireAll() {
  const db = openDatabase(dataDir(), { readonly: true })
  try {
    const numbers = new Set(factsSince(db, 0).map(({ number }) => number))
    expect(acknowledged.filter((number) => !numbers.has(number))).toEqual([])
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir())))
    expect(findings.filter(({ severity }) => severity === 'fault')).toEqual([])
  } finally {
    db.close()
  }
}

const fullDatabase = {
  code: 'storage',
  message: 'The disk with the data folder is full.',
  next: 'Make room on it and try again.',
}

/** Everywhere: the database's own bound in place of the disk's. */
describe('a database that may not grow', () => {
  test('refuses commands in words, and takes them again when it may', async () => {
    const { sqlite } = host.workshop.db.writer
    sqlite.pragma(`max_page_count = ${Number(sqlite.pragma('page_count', { simple: true }))}`)
    let answer = await addNote()
    for (let more = 0; more < 300 && answer === 'recorded'; more += 1) answer = await addNote()
    expect(answer).toEqual(fullDatabase)
    sqlite.pragma('max_page_count = 1073741823')
    expect(await addNote()).toBe('recorded')
    await requireAll()
  })
})

/** Needs a disk that may be filled: reported as skipped where this account may not mount one. */
describe.runIf(disk !== null)('a full disk', () => {
  test('refuses commands in words, and nothing that was answered is lost', async () => {
    disk?.fill()
    let answer = await addNote()
    for (let more = 0; more < 300 && answer === 'recorded'; more += 1) answer = await addNote()
    expect(answer).toEqual(fullDatabase)
    await requireAll()
  })

  test('refuses photos and reports in words, and what is there can be read', async () => {
    expect(await upload()).toMatchObject({
      status: 507,
      body: { refusal: { code: 'storage', message: 'The disk that holds the photos is full.' } },
    })
    const issued = await issue().catch((error: unknown) => refusalOf(Promise.reject(error)))
    expect('refusal' in issued ? issued.refusal : issued).toMatchObject({
      code: 'storage',
      message: expect.stringMatching(/full/) as string,
    })
    expect((await screen.client.car.query({ carId })).header.shellNumber).toBe('R-1')
  })

  test('does not even take a code, and says why', async () => {
    const code = { personId: manager, code: '314159' }
    const answer = await screen.client.signIn.mutate(code).then(
      (given) => (given.ok ? null : given.refusal),
      () => refusalOf(screen.client.signIn.mutate(code)),
    )
    expect(answer).toEqual(fullDatabase)
  })

  test('is forgotten when there is room again', async () => {
    disk?.free()
    expect(await addNote()).toBe('recorded')
    expect((await upload()).status).toBe(200)
    expect(await issue()).toMatchObject({ ok: true })
    await requireAll()
  })
})

describe('a folder that was turned read-only', () => {
  test('refuses photos in words; commands go on, as the database is open', async () => {
    await withoutRights(dataDir(), async () => {
      expect(await upload()).toMatchObject({
        status: 507,
        body: { refusal: { next: expect.stringContaining('this account may write to it') as string } },
      })
      expect(await addNote()).toBe('recorded')
    })
    expect((await upload()).status).toBe(200)
    await requireAll()
  })

  test('refuses commands in words where the database itself may not be written', async () => {
    host.workshop.db.writer.sqlite.pragma('query_only = ON')
    expect(await addNote()).toMatchObject({
      code: 'storage',
      message: 'The data folder cannot be written to.',
    })
    host.workshop.db.writer.sqlite.pragma('query_only = OFF')
    expect(await addNote()).toBe('recorded')
  })

  test('is told by the next start, which works once it may be written', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'read-only-'))
    cpSync(dataDir(), folder, { recursive: true })
    await withoutRights(folder, () =>
      Promise.resolve(
        expect(() => openDatabase(folder)).toThrow(/Check that (its disk|the data folder).*this account may/),
      ),
    )
    const db = openDatabase(folder)
    expect(factsSince(db, 0).length).toBe(factsSince(host.workshop.db, 0).length)
    db.close()
    rmSync(folder, { recursive: true })
  })
})

describe('photos on a disk that vanishes', () => {
  const away = () => `${photosFolder(dataDir())}-away`

  test('are refused in words while it is away; commands go on; it comes back and they are taken', async () => {
    renameSync(photosFolder(dataDir()), away())
    expect(await upload()).toMatchObject({
      status: 507,
      body: {
        refusal: {
          message: 'The photo folder cannot be used (ENOENT).',
          next: expect.stringContaining('Check that its disk is attached') as string,
        },
      },
    })
    expect(await addNote()).toBe('recorded')
    renameSync(away(), photosFolder(dataDir()))
    expect((await upload()).status).toBe(200)
    await requireAll()
  })

  test('are not begun anew in its place by a start', async () => {
    renameSync(photosFolder(dataDir()), away())
    const start = () => openHostPhotos(host.workshop.db, photosFolder(dataDir()), inspectPhoto)
    await expect(start()).rejects.toThrow(/is not there, but \d+ photos.*Attach the disk that holds it/)
    // A mount point without its disk is an empty folder.
    mkdirSync(photosFolder(dataDir()))
    await expect(start()).rejects.toThrow(/Attach the disk that holds it/)
    rmSync(photosFolder(dataDir()), { recursive: true })
    renameSync(away(), photosFolder(dataDir()))
    expect((await (await start()).list()).ok).toBe(true)
  })
})
