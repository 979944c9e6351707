import { Buffer } from 'node:buffer'
import { mkdtemp, open, readFile, readdir, rm, stat, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { inspectPhoto } from '../../../db/photos/inspect-photo.ts'
import { originalPath, sizePath } from '../../../db/photos/photo-files.ts'
import {
  openPhotoReader,
  openPhotoStore,
  type PhotoBytes,
  type PhotoStore,
} from '../../../db/photos/photo-store.ts'
import { makeSizes } from '../../../db/photos/sizes.ts'
import { createTestPhoto } from '../../support/images.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-photos-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

async function openStore(): Promise<PhotoStore> {
  const store = await openPhotoStore(folder, { inspect: inspectPhoto })
  if (!store.ok) throw new Error(store.problem.message)
  return store.value
}

async function addPhoto(store: PhotoStore, bytes: Uint8Array): Promise<string> {
  const added = await store.add(bytes)
  if (!added.ok) throw new Error(added.problem.message)
  return added.value.sha256
}

async function allOf({ stream }: PhotoBytes): Promise<Buffer> {
  return Buffer.from(await new Response(stream as unknown as BodyInit).arrayBuffer())
}

const photo = () => createTestPhoto({ width: 80, height: 60, color: '#a53', taken: '2026:11:05 14:03:22' })
const incoming = () => readdir(join(folder, 'incoming'))

describe('reading', () => {
  it('gives the original and the sizes as streams with their length', async () => {
    const bytes = await photo()
    const store = await openStore()
    const sha256 = await addPhoto(store, bytes)
    const original = await store.readOriginal(sha256)
    if (!original.ok) throw new Error(original.problem.message)
    expect(original.value.byteCount).toBe(bytes.length)
    expect(await allOf(original.value)).toEqual(bytes)

    expect(await store.readSize(sha256, 'thumb')).toMatchObject({ ok: false, problem: { code: 'missing' } })
    await makeSizes(folder, sha256)
    const thumb = await store.readSize(sha256, 'thumb')
    if (!thumb.ok) throw new Error(thumb.problem.message)
    expect(await allOf(thumb.value)).toEqual(await readFile(sizePath(folder, sha256, 'thumb')))
  })

  it.each(['', 'ab', '../../../etc/passwd', 'AB'.repeat(32), `${'ab'.repeat(31)}/.`])(
    'knows no photo called %j',
    async (name) => {
      const store = await openStore()
      const absent = { ok: false, problem: { code: 'missing' } }
      expect(await store.readOriginal(name)).toMatchObject(absent)
      expect(await store.readSize(name, 'thumb')).toMatchObject(absent)
      expect(await store.verify(name)).toMatchObject(absent)
      expect(await store.remove(name, () => true)).toMatchObject(absent)
    },
  )

  it('finds one changed byte', async () => {
    const bytes = await photo()
    const store = await openStore()
    const sha256 = await addPhoto(store, bytes)
    const file = await open(originalPath(folder, sha256), 'r+')
    await file.write(Buffer.from([(bytes[200] ?? 0) ^ 1]), 0, 1, 200)
    await file.close()
    expect(await store.verify(sha256)).toMatchObject({ ok: false, problem: { code: 'changed' } })
  })

  it('reads beside a running host without touching what it receives', async () => {
    const sha256 = await addPhoto(await openStore(), await photo())
    await writeFile(join(folder, 'incoming', 'arriving.part'), 'half a photo')
    const reader = openPhotoReader(folder)
    expect(await reader.verify(sha256)).toMatchObject({ ok: true })
    expect(await reader.list()).toEqual({ ok: true, value: [sha256] })
    expect(await incoming()).toEqual(['arriving.part'])
  })
})

describe('remove', () => {
  it('removes the original with its sizes', async () => {
    const store = await openStore()
    const sha256 = await addPhoto(store, await photo())
    await makeSizes(folder, sha256)
    expect(await store.remove(sha256, () => true)).toEqual({ ok: true, value: true })
    expect(await store.list()).toEqual({ ok: true, value: [] })
    expect(await readdir(join(folder, 'derived'))).toEqual([])
    expect(await store.remove(sha256, () => true)).toMatchObject({ ok: false, problem: { code: 'missing' } })
  })

  it('spares a photo that is still referred to', async () => {
    const store = await openStore()
    const sha256 = await addPhoto(store, await photo())
    expect(await store.remove(sha256, () => false)).toEqual({ ok: true, value: false })
    expect(await store.verify(sha256)).toMatchObject({ ok: true })
  })

  it('asks with the time when the same bytes were last sent', async () => {
    const bytes = await photo()
    const store = await openStore()
    const sha256 = await addPhoto(store, bytes)
    const longAgo = new Date('2020-01-01T00:00:00Z')
    await utimes(originalPath(folder, sha256), longAgo, longAgo)
    const asked: Date[] = []
    const ask = (lastSent: Date) => {
      asked.push(lastSent)
      return false
    }
    await store.remove(sha256, ask)
    await addPhoto(store, bytes)
    await store.remove(sha256, ask)
    expect(asked[0]).toEqual(longAgo)
    expect(asked[1]).toEqual((await stat(originalPath(folder, sha256))).mtime)
    expect(asked[1]?.getTime()).toBeGreaterThan(longAgo.getTime() + 1e9)
  })
})
