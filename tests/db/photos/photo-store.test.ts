import { Buffer } from 'node:buffer'
import { createHash } from 'node:crypto'
import { mkdtemp, open, readFile, readdir, readlink, rm, writeFile, type FileHandle } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { inspectPhoto } from '../../../db/photos/inspect-photo.ts'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { MAX_PHOTO_BYTES, problemToRefusal } from '../../../db/photos/photo-problem.ts'
import { openPhotoStore, type PhotoStore } from '../../../db/photos/photo-store.ts'
import { createTestPhoto } from '../../support/images.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-photos-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

async function openStore(options: Partial<Parameters<typeof openPhotoStore>[1]> = {}): Promise<PhotoStore> {
  const store = await openPhotoStore(folder, { inspect: inspectPhoto, ...options })
  if (!store.ok) throw new Error(store.problem.message)
  return store.value
}

async function addPhoto(store: PhotoStore, bytes: Uint8Array): Promise<string> {
  const added = await store.add(bytes)
  if (!added.ok) throw new Error(added.problem.message)
  return added.value.sha256
}

const photo = () => createTestPhoto({ width: 80, height: 60, color: '#a53', taken: '2026:11:05 14:03:22' })
const sha256Of = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
const incoming = () => readdir(join(folder, 'incoming'))

describe('add', () => {
  it('keeps the bytes as they came under the SHA-256 of them, and says what the photo is', async () => {
    const bytes = await photo()
    const store = await openStore()
    const sha256 = sha256Of(bytes)
    expect(await store.add(bytes)).toEqual({
      ok: true,
      value: {
        sha256,
        byteCount: bytes.length,
        facts: {
          type: 'jpeg',
          width: 80,
          height: 60,
          orientation: 1,
          taken: { local: '2026-11-05T14:03:22', offset: null },
        },
      },
    })
    const place = join(folder, 'originals', sha256.slice(0, 2), sha256.slice(2, 4), sha256)
    expect(await readFile(place)).toEqual(bytes)
    expect(await incoming()).toEqual([])
  })

  // FIPS 180-4 example: SHA-256 of "abc".
  it('names a file by the published digest of its bytes', async () => {
    const facts = { type: 'jpeg', width: 1, height: 1, orientation: 1, taken: null } as const
    const store = await openStore({ inspect: () => Promise.resolve({ ok: true, value: facts }) })
    expect(await store.add(Buffer.from('abc'))).toMatchObject({
      value: { sha256: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad' },
    })
  })

  it('takes a web stream in pieces', async () => {
    const bytes = await photo()
    const body = new Response(bytes as unknown as BodyInit).body
    if (body === null) throw new Error('A response without a body.')
    const store = await openStore()
    expect(await store.add(body as unknown as AsyncIterable<Uint8Array>)).toMatchObject({
      ok: true,
      value: { sha256: sha256Of(bytes) },
    })
  })

  it('gives the same answer to the same bytes and keeps them once, also when they come at the same time', async () => {
    const bytes = await photo()
    const store = await openStore()
    const answers = await Promise.all([store.add(bytes), store.add(bytes), store.add(bytes)])
    expect(answers[0]).toMatchObject({ ok: true })
    expect(new Set(answers.map((answer) => JSON.stringify(answer))).size).toBe(1)
    expect(await store.add(bytes)).toEqual(answers[0])
    expect(await store.list()).toEqual({ ok: true, value: [sha256Of(bytes)] })
    expect(await incoming()).toEqual([])
  })

  it('mends an original that was damaged on the disk when the same photo is sent again', async () => {
    const bytes = await photo()
    const store = await openStore()
    const sha256 = await addPhoto(store, bytes)
    await writeFile(originalPath(folder, sha256), bytes.subarray(0, 40))
    await addPhoto(store, bytes)
    expect(await store.verify(sha256)).toEqual({ ok: true, value: { byteCount: bytes.length } })
  })

  it('takes 50 MB and refuses one byte more, naming the limit, without reading on', async () => {
    const bytes = await photo()
    const padded = (size: number) =>
      async function* () {
        yield bytes
        for (let left = size - bytes.length; left > 0; left -= 1_000_000)
          yield Buffer.alloc(Math.min(left, 1_000_000))
      }
    const store = await openStore()
    expect(await store.add(padded(MAX_PHOTO_BYTES)())).toMatchObject({
      ok: true,
      value: { byteCount: 52_428_800 },
    })

    let piecesRead = 0
    async function* endless(): AsyncGenerator<Uint8Array> {
      for (;;) {
        piecesRead += 1
        yield Buffer.alloc(1024 * 1024, 1)
      }
    }
    const refused = await store.add(endless())
    expect(refused).toMatchObject({ ok: false, problem: { code: 'too-large' } })
    expect(!refused.ok && refused.problem.message).toContain('50 MB')
    expect(piecesRead).toBe(51)
    expect(await store.add(padded(MAX_PHOTO_BYTES + 1)())).toMatchObject({ problem: { code: 'too-large' } })
    expect(await incoming()).toEqual([])
  })

  it('refuses what is no photo, empty, cut or text named like a photo, and leaves nothing behind', async () => {
    const bytes = await photo()
    const store = await openStore()
    const codeOf = async (content: Uint8Array) => {
      const answer = await store.add(content)
      return answer.ok ? 'taken' : answer.problem.code
    }
    expect(await codeOf(Buffer.alloc(0))).toBe('empty')
    expect(await codeOf(Buffer.from('holiday.jpg: wish you were here'))).toBe('not-an-image')
    expect(await codeOf(bytes.subarray(0, bytes.length - 30))).toBe('truncated')
    expect(await store.list()).toEqual({ ok: true, value: [] })
    expect(await incoming()).toEqual([])
  })

  it('keeps nothing of an upload whose connection broke off', async () => {
    const bytes = await photo()
    async function* broken(): AsyncGenerator<Uint8Array> {
      yield bytes.subarray(0, 300)
      throw Object.assign(new Error('read ECONNRESET'), { code: 'ECONNRESET', syscall: 'read' })
    }
    const store = await openStore()
    expect(await store.add(broken())).toMatchObject({ ok: false, problem: { code: 'upload-broken' } })
    expect(await incoming()).toEqual([])
  })

  it('says that the disk is full, and takes photos again when there is room', async () => {
    let isFull = true
    const store = await openStore({ createFile: (path) => (isFull ? openFullFile(path) : open(path, 'wx')) })
    const bytes = await photo()
    const full = await store.add(bytes)
    expect(full).toMatchObject({ ok: false, problem: { code: 'disk-full' } })
    expect(!full.ok && problemToRefusal(full.problem).code).toBe('storage')
    isFull = false
    expect(await store.add(bytes)).toMatchObject({ ok: true })
  })

  it('says that the folder cannot be used when it is gone', async () => {
    const store = await openStore()
    await rm(folder, { recursive: true })
    const bytes = await photo()
    expect(await store.add(bytes)).toMatchObject({ ok: false, problem: { code: 'folder-not-writable' } })
  })

  it('lets a defect of the check through and still clears the file', async () => {
    const store = await openStore({ inspect: () => Promise.reject(new TypeError('a defect')) })
    await expect(store.add(await photo())).rejects.toThrow('a defect')
    expect(await incoming()).toEqual([])
  })
})

/** Linux has a device that is always full; elsewhere a file stands in that fails in the same way. */
async function openFullFile(path: string): Promise<FileHandle> {
  if (process.platform === 'linux') return open('/dev/full', 'w')
  const file = await open(path, 'wx')
  const error = Object.assign(new Error('ENOSPC, write'), { code: 'ENOSPC', syscall: 'write' })
  return Object.assign(file, { writeFile: () => Promise.reject(error) })
}

describe('readOriginal', () => {
  it.runIf(process.platform === 'linux')('opens no file before the first read', async () => {
    const store = await openStore()
    const sha256 = await addPhoto(store, await photo())
    const isOpen = async () => {
      const links = (await readdir('/proc/self/fd')).map((fd) =>
        readlink(`/proc/self/fd/${fd}`).catch(() => ''),
      )
      return (await Promise.all(links)).includes(originalPath(folder, sha256))
    }
    const read = await store.readOriginal(sha256)
    if (!read.ok) throw new Error(read.problem.message)
    expect(await isOpen()).toBe(false)
    const opened = await open(originalPath(folder, sha256))
    expect(await isOpen()).toBe(true)
    await opened.close()
    await read.value.stream.cancel()
  })
})

describe('openPhotoStore', () => {
  it('clears what a killed host was receiving and keeps the originals', async () => {
    const sha256 = await addPhoto(await openStore(), await photo())
    await writeFile(join(folder, 'incoming', 'half.part'), 'half a photo')
    const store = await openStore()
    expect(await incoming()).toEqual([])
    expect(await store.verify(sha256)).toMatchObject({ ok: true })
  })

  it('says what to do when the folder cannot be made', async () => {
    const file = join(folder, 'a-file')
    await writeFile(file, '')
    const store = await openPhotoStore(join(file, 'photos'), { inspect: inspectPhoto })
    expect(store).toMatchObject({ ok: false, problem: { code: 'folder-not-writable' } })
    expect(!store.ok && store.problem.next).toContain('may write to it')
  })
})
