import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { isClean } from '../../../db/check-finding.ts'
import { checkDatabase } from '../../../db/check.ts'
import { contactBook } from '../../../db/contacts.ts'
import { readRestore } from '../../../db/copy-records.ts'
import { photosFolder } from '../../../db/data-paths.ts'
import { readErasures } from '../../../db/erasures.ts'
import { openDatabase } from '../../../db/open-database.ts'
import { openPhotoReader } from '../../../db/photos/photo-store.ts'
import { copyFolder } from '../../../electron/copies/copy-paths.ts'
import type { CopyMade } from '../../../electron/copies/make-copy.ts'
import { NO_SECRETS, copyOf, treeOf, valueOf } from '../../support/copies.ts'
import { restoreCopy } from '../../../electron/copies/restore-copy.ts'
import { restoreHere } from '../../../electron/copies/restore-here.ts'
import { createCopyKey, sealedWith } from '../../../electron/copies/sealing.ts'
import { createWorkshop, owner, type Workshop } from '../../support/workshop.ts'

const contact = {
  name: 'Philippa Drawbaugh',
  phone: '+44 20 7946 0777',
  email: 'pd@example.org' as const,
  address: '9 Tenter Lane',
}
const TRACES = ['Drawbaugh', '7946 0777', 'pd@example.org', 'Tenter Lane']

const folder = mkdtempSync(join(tmpdir(), 'erasures-'))
const target = join(folder, 'disk')
let workshop: Workshop
let old: CopyMade
/** A workshop that was copied while the owner's car was in work, and in which the owner was erased after that. */
beforeAll(async () => {
  workshop = createWorkshop({ keptIn: 'folder' })
  workshop.run('changeContact', { id: owner, contact })
  const carId = workshop.addCar()
  mkdirSync(target)
  old = await copyOf({ dataDir: workshop.dataDir!, folder: target, now: workshop.now })
  for (const status of ['finished', 'delivered'] as const)
    workshop.run('setVisitStatus', { visitId: 'visit-s-101' as never, status, reason: '' }, { carId })
  workshop.run('eraseContact', { id: owner })
  await copyOf({ dataDir: workshop.dataDir!, folder: target, now: workshop.now + 10_000 })
})
afterAll(() => {
  workshop.close()
  rmSync(folder, { recursive: true })
})

const listPath = () => join(old.store.folder, 'erased.json')
const tracesIn = (dataDir: string): readonly string[] =>
  [...treeOf(dataDir)].flatMap(([path, bytes]) =>
    TRACES.filter((trace) => bytes.includes(trace)).map((trace) => `${path}: ${trace}`),
  )
const restoreOld = async (dataDir: string, from = old) =>
  valueOf(await restoreCopy({ store: from.store, stamp: from.stamp, secrets: NO_SECRETS }, dataDir))
/** As on a disk where only the copy from before is left: no later one can tell of what was erased. */
async function withoutLaterCopy<T>(work: () => Promise<T>): Promise<T> {
  const copies = join(old.store.folder, 'copies')
  const [aside, later] = [join(folder, 'aside'), join(copies, '2026-11-23T07-00-10Z')]
  renameSync(later, aside)
  try {
    return await work()
  } finally {
    renameSync(aside, later)
  }
}

describe('a contact that was erased after a copy was made', () => {
  test('is in the copy from before and in no list: that has ids and times', () => {
    expect(readFileSync(join(copyFolder(old.store, old.stamp), 'workshop.db')).includes('Drawbaugh')).toBe(
      true,
    )
    const list = readFileSync(listPath(), 'utf8')
    expect(JSON.parse(list).erased).toEqual([{ id: owner, at: '2026-11-23T07:00:00.000Z' }])
    for (const trace of TRACES) expect(list).not.toContain(trace)
  })

  test('is erased again where that copy is restored, in every byte, and the workshop is sound', async () => {
    const dataDir = join(folder, 'restored')
    const { notes } = await withoutLaterCopy(() => restoreOld(dataDir))
    expect(notes).toEqual(['1 contact that was erased after this copy was made is erased here, too.'])
    expect(tracesIn(dataDir)).toEqual([])
    const db = openDatabase(dataDir)
    expect(contactBook(db).nameOf(owner)).toBe('(name erased)')
    expect(readErasures(db)).toEqual([{ id: owner, at: workshop.now }])
    expect(readRestore(db)?.notes).toEqual(notes)
    expect(isClean(await checkDatabase(db, openPhotoReader(photosFolder(dataDir))))).toBe(true)
    db.close()
    // What goes on from it copies on, and the list stays.
    await copyOf({ dataDir, folder: target, now: workshop.now + 20_000 })
    expect(JSON.parse(readFileSync(listPath(), 'utf8')).erased).toHaveLength(1)
    rmSync(join(old.store.folder, 'copies', '2026-11-23T07-00-20Z'), { recursive: true })
  })

  test('is erased in a host that takes the copy in, before it shows anything of it', async () => {
    const empty = createWorkshop({ keptIn: 'folder', setUp: false })
    const job = { store: old.store, stamp: old.stamp, secrets: NO_SECRETS }
    valueOf(await withoutLaterCopy(() => restoreHere(empty.db, empty.dataDir!, job, {})))
    expect(contactBook(empty.db).nameOf(owner)).toBe('(name erased)')
    expect(tracesIn(empty.dataDir!)).toEqual([])
    empty.close()
  })

  test.each([
    ['gone', () => rmSync(listPath())],
    ['damaged', () => writeFileSync(listPath(), '{ "format": "contacts th')],
  ])('may be back where the list is %s and no later copy is there, and that is said', async (how, harm) => {
    const list = readFileSync(listPath())
    harm()
    const dataDir = join(folder, `without-${how}`)
    const { notes } = await withoutLaterCopy(() => restoreOld(dataDir))
    expect(notes).toEqual([
      'The list of erased contacts is not beside this copy, or cannot be read. Names and addresses that were erased after it was made may be back: look through them on the Workshop screen, under Contacts, and erase them once more.',
    ])
    expect(tracesIn(dataDir)).not.toEqual([])
    writeFileSync(listPath(), list)
  })

  test('is known from a later copy, too, where the list is gone', async () => {
    const list = readFileSync(listPath())
    rmSync(listPath())
    const dataDir = join(folder, 'by-later')
    const { notes } = await restoreOld(dataDir)
    expect(notes).toHaveLength(1)
    expect(notes[0]).toContain('The list of erased contacts is not beside this copy')
    expect(tracesIn(dataDir)).toEqual([])
    writeFileSync(listPath(), list)
  })

  test('stands in the open list of sealed copies by the id alone', async () => {
    const sealed = join(folder, 'sealed-disk')
    mkdirSync(sealed)
    const wrapping = sealedWith(await createCopyKey('a long enough passphrase'))
    const { store } = await copyOf({ dataDir: workshop.dataDir!, folder: sealed, wrapping })
    expect(JSON.parse(readFileSync(join(store.folder, 'erased.json'), 'utf8')).erased).toEqual([
      { id: owner, at: '2026-11-23T07:00:00.000Z' },
    ])
    for (const trace of TRACES)
      for (const [path, bytes] of treeOf(sealed)) expect(bytes.includes(trace), path).toBe(false)
  })
})
