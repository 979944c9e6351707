import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { isClean } from '../../../db/check-finding.ts'
import { checkDatabase } from '../../../db/check.ts'
import { contactBook } from '../../../db/contacts.ts'
import { photosFolder } from '../../../db/data-paths.ts'
import { openDatabase } from '../../../db/open-database.ts'
import { openPhotoReader } from '../../../db/photos/photo-store.ts'
import { copyFolder } from '../../../electron/copies/copy-paths.ts'
import type { CopyMade } from '../../../electron/copies/make-copy.ts'
import { NO_SECRETS, copyOf, refusedWith, treeOf, valueOf } from '../../support/copies.ts'
import { restoreCopy } from '../../../electron/copies/restore-copy.ts'
import { restoreHere } from '../../../electron/copies/restore-here.ts'
import { everyAnswer, everyInput } from '../../support/every-view.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import {
  folderForFile,
  namesIn,
  openBesideFirst,
  tellEverything,
  withoutComputer,
} from '../../support/whole.ts'
import { carPayload, createWorkshop, owner } from '../../support/workshop.ts'
import { flipAt } from '../../db/tamper.ts'

const { folder, remove } = folderForFile()
const target = join(folder, 'disk')
let first: TestHost
let restored: TestHost
let copy: CopyMade
let screens: readonly [TestScreen, TestScreen]

/** A workshop in which every kind of fact was recorded, copied, and restored into a folder that was not there. */
beforeAll(async () => {
  first = await createTestHost()
  await tellEverything(first)
  mkdirSync(target)
  copy = await copyOf({ dataDir: first.workshop.dataDir!, folder: target })
  valueOf(await restoreCopy(job(), join(folder, 'restored')))
  const beside = await openBesideFirst(first, join(folder, 'restored'))
  restored = beside.came
  screens = beside.screens
})
afterAll(async () => {
  await first.close()
  await restored.close()
  remove()
})

const job = () => ({ store: copy.store, stamp: copy.stamp, secrets: NO_SECRETS })

describe('a workshop that was restored from a copy', () => {
  test('shows the same in every view of every car, visit, repair, week and person', async () => {
    const shown = await everyAnswer(screens[0], first.workshop.db)
    const shownByRestored = await everyAnswer(screens[1], restored.workshop.db)
    expect([...shown.keys()].length).toBeGreaterThan(Object.keys(everyInput).length)
    expect(withoutComputer(shownByRestored)).toEqual(withoutComputer(shown))
  })

  test('passes the check', async () => {
    const photos = openPhotoReader(photosFolder(restored.workshop.dataDir!))
    const findings = await checkDatabase(restored.workshop.db, photos)
    expect(isClean(findings), JSON.stringify(findings)).toBe(true)
  })

  test('goes on with an epoch of its own, so that every screen reads anew', async () => {
    const epochs = await Promise.all(screens.map(async ({ client }) => (await client.session.query()).epoch))
    expect(new Set(epochs).size).toBe(2)
  })

  test('knows the commands that were answered before, and goes on where it was', async () => {
    const count = 'SELECT count(*) FROM journal'
    const before = restored.workshop.db.reader.sqlite.prepare(count).pluck().get() as number
    const sent = restored.workshop.db.reader.sqlite.prepare('SELECT command_id FROM journal').pluck().get()
    const again = await screens[1].send('addCar', carPayload('Teasel', 'S-900'), { id: String(sent) })
    expect(again).toMatchObject({ ok: false, refusal: { code: 'same-id-other-content' } })
    await screens[1].run('addNote', { text: 'After the restore.' } as never, {
      carId: 'car-s-101' as never,
      id: 'a-note',
    })
    expect(restored.workshop.db.reader.sqlite.prepare(count).pluck().get()).toBe(before + 1)
  })
})

test('an older copy is restored without the names and addresses that were erased since', async () => {
  const { workshop } = first
  const erased = { name: 'Former owner', phone: '', email: '' as const, address: '' }
  const before = { ...erased, name: 'R. Okafor', phone: '+44 20 7946 0123', address: '3 Mill Lane' }
  workshop.run('changeContact', { id: owner, contact: before })
  const old = await copyOf({ dataDir: workshop.dataDir!, folder: target, now: workshop.now + 10_000 })
  workshop.run('changeContact', { id: owner, contact: erased })
  await copyOf({ dataDir: workshop.dataDir!, folder: target, now: workshop.now + 20_000 })
  const dataDir = join(folder, 'older')
  expect(valueOf(await restoreCopy({ ...job(), stamp: old.stamp }, dataDir)).notes).toEqual([])
  const db = openDatabase(dataDir)
  expect(contactBook(db).contactOf(owner)).toEqual(erased)
  db.close()
  expect(namesIn(dataDir)).not.toContain('later.db')
  for (const [path, bytes] of treeOf(dataDir)) expect(bytes.includes('7946 0123'), path).toBe(false)
})

describe('a copy is not restored', () => {
  const refused = async (to: string) => refusedWith(await restoreCopy(job(), to))

  test('into a folder that is not empty, or in which a host is at work', async () => {
    mkdirSync(join(folder, 'full'))
    writeFileSync(join(folder, 'full', 'letter.txt'), 'mine')
    expect(await refused(join(folder, 'full'))).toContain('is not empty. Name an empty folder')
    expect(await refused(restored.workshop.dataDir!)).toContain('There is a workshop in')
  })

  test('where anything in it is damaged: nothing of it is left', async () => {
    const path = join(copyFolder(copy.store, copy.stamp), 'workshop.db')
    const before = readFileSync(path)
    flipAt(path, 5_000)
    expect(await refused(join(folder, 'damaged'))).toContain('Its database is not what was copied')
    writeFileSync(path, before)
    expect(namesIn(folder).filter((name) => name.includes('damaged'))).toEqual([])
  })

  test('once it is stopped', async () => {
    const signal = AbortSignal.abort()
    expect(refusedWith(await restoreCopy(job(), join(folder, 'stopped'), { signal }))).toContain(
      'This was stopped',
    )
    expect(namesIn(folder).filter((name) => name.includes('stopped'))).toEqual([])
  })
})

test('a host without a workshop takes a copy in to its own folder, and one with a workshop does not', async () => {
  const empty = createWorkshop({ keptIn: 'folder', setUp: false })
  const before = empty.db.reader.sqlite
    .prepare(`SELECT value FROM setting WHERE name = 'epoch'`)
    .pluck()
    .get()
  const { name, number } = valueOf(await restoreHere(empty.db, empty.dataDir!, job(), {}))
  expect([name, number]).toEqual(['Brookside Metalwork', copy.head.number])
  expect(
    empty.db.reader.sqlite.prepare(`SELECT value FROM setting WHERE name = 'epoch'`).pluck().get(),
  ).not.toBe(before)
  const findings = await checkDatabase(empty.db, openPhotoReader(photosFolder(empty.dataDir!)))
  expect(isClean(findings), JSON.stringify(findings)).toBe(true)
  expect(refusedWith(await restoreHere(empty.db, empty.dataDir!, job(), {}))).toContain('There is a workshop')
  expect(namesIn(join(empty.dataDir!, 'private'))).not.toContain('taking-in')
  empty.close()
})
