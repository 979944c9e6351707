import { existsSync, mkdirSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { buffer } from 'node:stream/consumers'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { copyKeyPath } from '../../../db/data-paths.ts'
import { copyFolder, filePath } from '../../../electron/copies/copy-paths.ts'
import { listCopies } from '../../../electron/copies/find-copies.ts'
import { keepKey, wrappingHere } from '../../../electron/copies/kept-key.ts'
import type { CopyMade } from '../../../electron/copies/make-copy.ts'
import { restoreCopy } from '../../../electron/copies/restore-copy.ts'
import { createCopyKey, keyOfPassphrase, sealedWith } from '../../../electron/copies/sealing.ts'
import { sealedBytes, sealStream, unsealStream } from '../../../electron/copies/seal-stream.ts'
import { verifyCopy } from '../../../electron/copies/verify-copy.ts'
import type { Wrapping } from '../../../electron/copies/wrapping.ts'
import { copyOf, refusedWith, treeOf, valueOf } from '../../support/copies.ts'
import { createTestHost, type TestHost } from '../../support/host.ts'
import { folderForFile, namesIn, tellEverything } from '../../support/whole.ts'
import { firstMorning } from '../../support/workshop.ts'
import { flipAt } from '../../db/tamper.ts'

const { folder, remove } = folderForFile()
const target = join(folder, 'disk')
const PASSPHRASE = 'grey primer before noon'
const DAY = 86_400_000
let host: TestHost
let wrapping: Wrapping
let copy: CopyMade
const dataDir = () => host.workshop.dataDir!
const photo = () =>
  host.workshop.db.reader.sqlite.prepare('SELECT sha256 FROM photo LIMIT 1').pluck().get() as string

beforeAll(async () => {
  host = await createTestHost()
  await tellEverything(host)
  mkdirSync(target)
  keepKey(dataDir(), await createCopyKey(PASSPHRASE))
  wrapping = await wrappingHere(dataDir(), true)
  copy = await copyOf({ dataDir: dataDir(), folder: target, wrapping })
})
afterAll(async () => {
  await host.close()
  remove()
})

const restore = (passphrase: string | null, to: string, stamp = copy.stamp) =>
  restoreCopy({ store: copy.store, stamp, secrets: { passphrase, key: null } }, join(folder, to))

describe('a sealed copy', () => {
  test('can be read nowhere: no name, no text, no photo, no digest of a file', () => {
    const tree = treeOf(join(copy.store.folder))
    const plain = treeOf(dataDir())
    const known = ['Brookside Metalwork', 'Larkspur', 'Mara Lindqvist', 'SQLite format 3', '%PDF', photo()]
    const all = Buffer.concat([...plain.values(), Buffer.from([...plain.keys()].join(' '))])
    for (const text of known) {
      expect(all.includes(text), text).toBe(true)
      for (const [path, bytes] of tree) {
        expect(bytes.includes(text), `${text} in ${path}`).toBe(false)
        expect(path).not.toContain(text)
      }
    }
  })

  test('opens with its passphrase and the kept key, however the passphrase is composed; not with another', async () => {
    expect(refusedWith(await restore(null, 'none'))).toContain('This copy is sealed. Give the passphrase')
    expect(refusedWith(await restore('Grey primer before noon', 'wrong'))).toContain(
      'This is not the passphrase',
    )
    expect(valueOf(await restore(PASSPHRASE, 'restored'))).toMatchObject({
      name: 'Brookside Metalwork',
      lost: [],
    })
    expect(namesIn(folder).toSorted()).toEqual(['disk', 'restored'])
    const key = await createCopyKey('caf\u00e9 caf\u00e9 caf\u00e9')
    expect(await keyOfPassphrase('cafe\u0301 cafe\u0301 cafe\u0301', key.sealing)).toEqual(key)
  })

  test('is listed without its passphrase by its time and size alone', async () => {
    expect(await listCopies(copy.store)).toEqual([
      expect.objectContaining({ stamp: copy.stamp, isSealed: true, content: null }),
    ])
  })

  test('a changed bit and a cut end are seen in each of its files', async () => {
    const inCopy = (name: string) => join(copyFolder(copy.store, copy.stamp), name)
    const paths = [inCopy('workshop.db'), inCopy('content'), filePath(copy.store, wrapping.nameOf(photo()))]
    const verify = async () =>
      refusedWith(
        await verifyCopy({
          dataDir: dataDir(),
          store: copy.store,
          stamp: copy.stamp,
          secrets: { passphrase: PASSPHRASE, key: null },
        }),
      )
    for (const path of paths) {
      const before = readFileSync(path)
      flipAt(path, before.length - 20)
      expect(await verify(), path).toContain('was changed or cut off')
      writeFileSync(path, before)
      truncateSync(path, before.length - 1)
      expect(await verify(), path).toContain('was changed or cut off')
      writeFileSync(path, before)
    }
    expect(await verify()).toBe('It was done.')
  })

  test('the next one adds only what is new; with another passphrase everything is written anew', async () => {
    const next = await copyOf({ dataDir: dataDir(), folder: target, wrapping, now: firstMorning + DAY })
    expect(next.files.written).toBe(0)
    const other = sealedWith(await createCopyKey('another passphrase'))
    const anew = await copyOf({
      dataDir: dataDir(),
      folder: target,
      wrapping: other,
      now: firstMorning + 2 * DAY,
    })
    expect(anew.files.written).toBe(copy.files.written)
    expect(refusedWith(await restore('another passphrase', 'anew', anew.stamp))).toBe('It was done.')
    expect(existsSync(copyKeyPath(join(folder, 'anew')))).toBe(false)
  })

  test('the key lies under private, for this account alone', () => {
    expect(copyKeyPath(dataDir())).toContain(join('private', 'copy-key'))
    expect(statSync(copyKeyPath(dataDir())).mode & 0o777).toBe(0o600)
  })
})

describe('the stream of pieces', () => {
  const key = new Uint8Array(32).fill(7)
  const seal = (bytes: Uint8Array, name = 'a') => buffer(Readable.from([bytes]).pipe(sealStream(key, name)))
  const open = (bytes: Uint8Array, name = 'a') => {
    const out = unsealStream(key, name)
    return buffer(Readable.from([bytes]).pipe(out))
  }
  const PIECE = 64 * 1024

  test.each([0, 1, PIECE - 1, PIECE, PIECE + 1, 3 * PIECE])(
    '%i bytes come back as they were',
    async (length) => {
      const bytes = Buffer.alloc(length, 'weld')
      const sealed = await seal(bytes)
      expect(sealed).toHaveLength(sealedBytes(length))
      expect((await open(sealed)).equals(bytes)).toBe(true)
    },
  )

  test('a file cut between two pieces, pieces that changed places and a file under another name are not opened', async () => {
    const sealed = await seal(Buffer.alloc(3 * PIECE, 'weld'))
    const [head, size] = [16, PIECE + 16]
    const piece = (index: number) => sealed.subarray(head + index * size, head + (index + 1) * size)
    const cut = sealed.subarray(0, head + 2 * size)
    const swapped = Buffer.concat([sealed.subarray(0, head), piece(1), piece(0), piece(2)])
    await expect(open(cut)).rejects.toThrow('changed or cut off')
    await expect(open(swapped)).rejects.toThrow('changed or cut off')
    await expect(open(sealed, 'b')).rejects.toThrow('changed or cut off')
    await expect(open(sealed.subarray(0, 10))).rejects.toThrow('changed or cut off')
  })
})
