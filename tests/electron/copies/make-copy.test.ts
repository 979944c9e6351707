import { mkdirSync, readFileSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Sqlite from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { photosFolder } from '../../../db/data-paths.ts'
import { readHead } from '../../../electron/copies/find-copies.ts'
import { copyFolder, filePath } from '../../../electron/copies/copy-paths.ts'
import { makeCopy, type CopyMade } from '../../../electron/copies/make-copy.ts'
import { NO_SECRETS, copyOf, refusedWith, treeOf, tryCopy, valueOf } from '../../support/copies.ts'
import { verifyCopy } from '../../../electron/copies/verify-copy.ts'
import { AS_IT_IS } from '../../../electron/copies/wrapping.ts'
import { createTestHost, type TestHost } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { folderForFile, namesIn, tellEverything } from '../../support/whole.ts'
import { firstMorning, manager, welder } from '../../support/workshop.ts'
import { flipAt } from '../../db/tamper.ts'

const { folder, remove } = folderForFile()
const DAY = 86_400_000
let host: TestHost
let first: CopyMade
let second: CopyMade
const dataDir = () => host.workshop.dataDir!
const target = join(folder, 'disk')

/** A workshop in which every kind of fact was recorded, copied twice, with one photo more the second time. */
beforeAll(async () => {
  host = await createTestHost()
  await tellEverything(host)
  const screen = await host.openScreen()
  await screen.signIn(manager)
  await screen.run('setCode', { personId: welder, newCode: '9182' }, { id: 'new-code' })
  mkdirSync(target)
  first = await copyOf({ dataDir: dataDir(), folder: target })
  await screen.upload(await createTestPhoto({ width: 50, height: 30, color: '#123' }))
  host.workshop.addCar('Pellin 3', 'S-777')
  second = await copyOf({ dataDir: dataDir(), folder: target, now: firstMorning + DAY, isKnown: true })
})
afterAll(async () => {
  await host.close()
  remove()
})

const verify = (stamp: string) =>
  verifyCopy({ dataDir: dataDir(), store: first.store, stamp, secrets: NO_SECRETS })
const lastNumber = () =>
  host.workshop.db.reader.sqlite.prepare('SELECT max(number) FROM journal').pluck().get()

describe('a copy beside a host at work', () => {
  test('holds the database and every file that its records name, and says what is in it', async () => {
    const head = valueOf(await readHead(second.store, second.stamp))
    expect(head).toEqual(second.head)
    expect(head).toMatchObject({ number: lastNumber(), isWhole: true, sealing: null })
    expect(head.content).toMatchObject({ workshop: 'Brookside Metalwork', cars: 4, photos: 5, lost: [] })
    const sqlite = new Sqlite(join(copyFolder(second.store, second.stamp), 'workshop.db'), { readonly: true })
    expect(sqlite.prepare('SELECT count(*) FROM journal').pluck().get()).toBe(lastNumber())
    sqlite.close()
    expect(valueOf(await verify(first.stamp)).files).toBe(valueOf(await verify(second.stamp)).files - 1)
  })

  test('writes a file once only: the later one adds the new photo alone', () => {
    expect(first.files.written).toBe(first.head.content!.photos + first.head.content!.otherFiles)
    expect(second.files).toMatchObject({ written: 1, lost: [] })
  })

  test('holds no code, key, device, session or setting of this computer, not even in a free page', () => {
    const rows = (sql: string) =>
      host.workshop.db.reader.sqlite.prepare(sql).pluck().all() as readonly unknown[]
    const secrets = [
      ...rows('SELECT token_hash FROM device').map((hash) => Buffer.from(String(hash))),
      ...(rows('SELECT hash FROM code') as Buffer[]),
      ...(rows('SELECT salt FROM code') as Buffer[]),
      Buffer.from(String(rows(`SELECT value FROM setting WHERE name = 'epoch'`)[0])),
      Buffer.from("The host's own screen"),
      Buffer.from(host.workshop.db.codeKey),
    ]
    expect(secrets.length).toBeGreaterThan(8)
    expect(rows('SELECT count(*) FROM session')).toEqual([1])
    for (const bytes of treeOf(target).values())
      for (const secret of secrets) expect(bytes.includes(secret)).toBe(false)
  })

  test('warns where it lies on the disk of the workshop itself', () => {
    expect(first.warnings).toEqual([expect.stringContaining('on the same disk as the workshop itself')])
  })

  test('leaves nothing half-written, neither there nor in the data folder', () => {
    expect([...treeOf(target).keys()].filter((path) => path.includes('.part'))).toEqual([])
    expect(namesIn(join(dataDir(), 'private'))).not.toContain('copying')
  })
})

describe('what was copied is verified', () => {
  const damaged = async (path: string, change: (path: string) => void): Promise<string> => {
    const before = readFileSync(path)
    change(path)
    const said = refusedWith(await verify(second.stamp))
    writeFileSync(path, before)
    return said
  }
  const flip = (path: string) => flipAt(path, Math.floor(readFileSync(path).length / 2))
  const inCopy = (name: string) => join(copyFolder(second.store, second.stamp), name)
  const aPhoto = () =>
    host.workshop.db.reader.sqlite.prepare('SELECT sha256 FROM photo LIMIT 1').pluck().get() as string

  test('one changed bit is seen wherever it is, and a missing or shortened file', async () => {
    const photo = filePath(second.store, aPhoto())
    expect(await damaged(inCopy('workshop.db'), flip)).toContain('Its database is not what was copied')
    expect(await damaged(inCopy('files.txt'), flip)).toContain(
      'The list of its files is not what was written',
    )
    expect(await damaged(photo, flip)).toMatch(/The photo \w{12}.* is not what was copied/)
    expect(await damaged(photo, (path) => truncateSync(path, 20))).toContain('is not what was copied')
    expect(await damaged(photo, rmSync)).toContain('is missing')
    expect(await damaged(inCopy('copy.json'), (path) => writeFileSync(path, '{"format": 1'))).toContain(
      'is damaged',
    )
    expect(refusedWith(await verify(second.stamp))).toBe('It was done.')
  })

  test('the next copy writes a file anew that has another length, or reads otherwise when its turn has come', async () => {
    const sha256 = aPhoto()
    const path = filePath(second.store, sha256)
    truncateSync(path, 20)
    expect(
      (await copyOf({ dataDir: dataDir(), folder: target, now: firstMorning + 2 * DAY })).files.written,
    ).toBe(1)
    flip(path)
    const turn = Number.parseInt(sha256.slice(0, 2), 16) % 32
    const today = Math.floor(firstMorning / DAY)
    const itsDay = firstMorning + ((turn - (today % 32) + 32) % 32) * DAY
    const mended = await copyOf({ dataDir: dataDir(), folder: target, now: itsDay })
    expect(mended.files.written).toBe(1)
    expect(refusedWith(await verify(mended.stamp))).toBe('It was done.')
  })

  test('a photo that is lost in the workshop stays as an earlier copy has it', async () => {
    const place = originalPath(photosFolder(dataDir()), aPhoto())
    const before = readFileSync(place)
    rmSync(place)
    const copy = await copyOf({ dataDir: dataDir(), folder: target, now: firstMorning + 3 * DAY })
    expect(copy.head.isWhole).toBe(true)

    mkdirSync(join(folder, 'other disk'))
    const elsewhere = await copyOf({ dataDir: dataDir(), folder: join(folder, 'other disk') })
    writeFileSync(place, before)
    expect(elsewhere.head.isWhole).toBe(false)
    expect(elsewhere.warnings.join(' ')).toMatch(/1 file could not be copied: The photo \w{12}.* is gone/)
  })
})

describe('old copies thin out', () => {
  test('and the files that none of the others names go with them; what a kill has left goes too', async () => {
    const disk = join(folder, 'thinned')
    mkdirSync(disk)
    const made: CopyMade[] = []
    for (const hours of [0, 1, 24]) {
      made.push(await copyOf({ dataDir: dataDir(), folder: disk, now: firstMorning + hours * 3_600_000 }))
    }
    const { store } = made[0]!
    const stray = filePath(store, 'ab'.repeat(32))
    mkdirSync(dirname(stray), { recursive: true })
    for (const path of [stray, `${filePath(store, 'ab'.repeat(32))}.part`])
      writeFileSync(path, 'left by a kill')
    mkdirSync(join(store.folder, 'copies', '2020-01-01T00-00-00Z.part'))
    const last = await copyOf({ dataDir: dataDir(), folder: disk, now: firstMorning + 5 * DAY })
    expect(last.dropped).toEqual([made[0]!.stamp])
    expect(namesIn(join(store.folder, 'copies'))).toEqual(
      [made[1]!.stamp, made[2]!.stamp, last.stamp].toSorted(),
    )
    expect([...treeOf(store.folder).keys()].filter((path) => /abab|part/.test(path))).toEqual([])
    for (const { stamp } of [made[1]!, last])
      expect(refusedWith(await verifyCopy({ dataDir: dataDir(), store, stamp, secrets: NO_SECRETS }))).toBe(
        'It was done.',
      )
  })
})

describe('a copy is refused in words, and earlier ones are as they were', () => {
  const refused = async (out: string, asked = {}) =>
    refusedWith(await tryCopy({ dataDir: dataDir(), folder: out, ...asked }))

  test('into the data folder, also by a link', async () => {
    const link = join(folder, 'link')
    symlinkSync(dataDir(), link)
    for (const out of [dataDir(), link, join(dataDir(), 'photos')])
      expect(await refused(out)).toContain('Copies cannot lie in the data folder itself')
  })

  test('where the folder is not there, or is there without the copies that were made in it', async () => {
    expect(await refused(join(folder, 'gone'))).toMatch(/There is no folder .*gone. Attach its disk/)
    mkdirSync(join(folder, 'mount point'))
    expect(await refused(join(folder, 'mount point'), { isKnown: true })).toContain(
      'are not there. Attach the disk',
    )
  })

  test('while another copy is being made, and when it is stopped', async () => {
    const before = treeOf(target)
    const both = await Promise.all(
      [1, 2].map(() => tryCopy({ dataDir: dataDir(), folder: target, now: firstMorning })),
    )
    expect(both.filter(({ ok }) => ok)).toHaveLength(1)
    expect(both.map(refusedWith).join(' ')).toContain('is being made or verified already')
    rmSync(copyFolder(first.store, valueOf(both.find(({ ok }) => ok)!).stamp), { recursive: true })

    const stopping = new AbortController()
    stopping.abort()
    const job = {
      dataDir: dataDir(),
      folder: target,
      wrapping: AS_IT_IS,
      now: firstMorning,
      isKnown: true,
    }
    expect(refusedWith(await makeCopy(job, { signal: stopping.signal }))).toContain('This was stopped')
    expect([...treeOf(target).keys()]).toEqual([...before.keys()])
  })

  test('where a file stands in the place of the folder', async () => {
    writeFileSync(join(folder, 'a file'), '')
    expect(await refused(join(folder, 'a file'))).toContain('Choose another folder')
  })
})
