import { Buffer } from 'node:buffer'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { inspectPhoto } from '../../../db/photos/inspect-photo.ts'
import {
  createJpegHeader,
  createPngHeader,
  createQuarteredPhoto,
  createTestPhoto,
} from '../../support/images.ts'

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-inspect-'))
})
afterAll(() => rm(folder, { recursive: true }))

async function inspectBytes(bytes: Uint8Array) {
  const path = join(folder, 'photo')
  await writeFile(path, bytes)
  return inspectPhoto(path)
}

const heicSample = () => readFile(new URL('../../fixtures/sample.heic', import.meta.url))

describe('inspectPhoto', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8] as const)(
    'gives the upright size for EXIF orientation %d',
    async (orientation) => {
      expect(await inspectBytes(await createQuarteredPhoto(orientation))).toEqual({
        ok: true,
        value: { type: 'jpeg', width: 60, height: 40, orientation, taken: null },
      })
    },
  )

  it.each(['jpeg', 'png', 'webp'] as const)('gives kind, size and camera time of a %s', async (format) => {
    const photo = {
      width: 64,
      height: 48,
      color: '#a53',
      taken: '2026:11:05 14:03:22',
      offset: '+01:00',
      format,
    }
    expect(await inspectBytes(await createTestPhoto(photo))).toEqual({
      ok: true,
      value: {
        type: format,
        width: 64,
        height: 48,
        orientation: 1,
        taken: { local: '2026-11-05T14:03:22', offset: '+01:00' },
      },
    })
  })

  it('gives a HEIC photo as its own rotation shows it, whatever its EXIF orientation says besides', async () => {
    expect(await inspectBytes(await heicSample())).toEqual({
      ok: true,
      value: {
        type: 'heic',
        width: 320,
        height: 480,
        orientation: 1,
        taken: { local: '2026-11-05T14:03:22', offset: '+01:00' },
      },
    })
  })

  it('takes a photo with a camera’s additions after the picture', async () => {
    const photo = await createTestPhoto({ width: 64, height: 48, color: '#a53' })
    expect(await inspectBytes(Buffer.concat([photo, Buffer.alloc(900, 7)]))).toMatchObject({ ok: true })
  })

  it('refuses 0 bytes', async () => {
    expect(await inspectBytes(Buffer.alloc(0))).toMatchObject({ ok: false, problem: { code: 'empty' } })
  })

  it.each([
    ['a text', 'Dear owner, this is a text.'],
    ['an SVG drawing', '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="30"/>'],
  ])('refuses %s by name and says what is taken', async (looksLike, content) => {
    const result = await inspectBytes(Buffer.from(content))
    expect(result).toMatchObject({ ok: false, problem: { code: 'not-an-image' } })
    expect(!result.ok && result.problem.message).toContain(looksLike)
    expect(!result.ok && result.problem.next).toContain('JPEG, PNG, WebP or HEIC')
  })

  it('refuses a drawing that begins like a JPEG', async () => {
    const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="30"/>'
    const bytes = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.from(svg)])
    expect(await inspectBytes(bytes)).toMatchObject({ ok: false, problem: { code: 'truncated' } })
  })

  it.each([
    ['PNG', () => Promise.resolve(createPngHeader(30_000, 30_000))],
    ['JPEG', () => createJpegHeader(30_000, 30_000)],
  ])('refuses a %s of 30,000 x 30,000 pixels by its header and names the limit', async (_name, create) => {
    const result = await inspectBytes(await create())
    expect(result).toMatchObject({ ok: false, problem: { code: 'too-many-pixels' } })
    expect(!result.ok && result.problem.message).toContain('30000 x 30000 pixels, 900 megapixels')
    expect(!result.ok && result.problem.message).toContain('100 megapixels')
  })

  it('takes exactly 100 megapixels and refuses one row more', async () => {
    const create = (height: number) =>
      sharp({ create: { width: 10_000, height, channels: 3, background: '#777' }, limitInputPixels: false })
        .jpeg({ quality: 30 })
        .toBuffer()
    expect(await inspectBytes(await create(10_000))).toMatchObject({ ok: true, value: { height: 10_000 } })
    expect(await inspectBytes(await create(10_001))).toMatchObject({
      ok: false,
      problem: { code: 'too-many-pixels' },
    })
  })

  describe.each(['jpeg', 'progressive jpeg', 'png', 'interlaced png', 'webp'])('a cut %s', (kind) => {
    it.each([0.02, 0.3, 0.6, 0.95])('is refused when %d of it has arrived', async (share) => {
      const whole = await createOfKind(kind)
      expect(await inspectBytes(whole)).toMatchObject({ ok: true })
      const cut = whole.subarray(0, Math.max(16, Math.floor(whole.length * share)))
      expect(await inspectBytes(cut)).toMatchObject({ ok: false, problem: { code: 'truncated' } })
    })
  })

  it.each([0.3, 0.6, 0.95])('refuses a HEIC of which %d has arrived', async (share) => {
    const whole = await heicSample()
    const cut = whole.subarray(0, Math.floor(whole.length * share))
    expect(await inspectBytes(cut)).toMatchObject({ ok: false, problem: { code: 'truncated' } })
  })

  it('refuses a HEIC that is whole but cannot be decoded, and says what to do', async () => {
    const bytes = Buffer.from(await heicSample())
    const picture = bytes.indexOf('mdat') + 4
    bytes.fill(0x5a, picture, picture + 300)
    const result = await inspectBytes(bytes)
    expect(result).toMatchObject({ ok: false, problem: { code: 'heic-unsupported' } })
    expect(!result.ok && result.problem.next).toContain('Save it as JPEG')
  })
})

async function createOfKind(kind: string): Promise<Buffer> {
  const photo = sharp(await createTestPhoto({ width: 640, height: 480, color: '#667788', format: 'png' }))
  switch (kind) {
    case 'jpeg':
      return photo.jpeg().toBuffer()
    case 'progressive jpeg':
      return photo.jpeg({ progressive: true }).toBuffer()
    case 'png':
      return photo.png().toBuffer()
    case 'interlaced png':
      return photo.png({ progressive: true }).toBuffer()
    case 'webp':
      return photo.webp().toBuffer()
    default:
      throw new Error(`No such kind: ${kind}`)
  }
}
