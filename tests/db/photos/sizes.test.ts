import { createHash } from 'node:crypto'
import { copyFile, mkdir, mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { originalPath, sizePath } from '../../../db/photos/photo-files.ts'
import { PHOTO_SIZES, PHOTO_SIZE_NAMES } from '../../../db/photos/photo-size.ts'
import { makeSizes, renderCut, renderSize } from '../../../db/photos/sizes.ts'
import { QUARTERS, createQuarteredPhoto, createTestPhoto } from '../../support/images.ts'

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-sizes-'))
})
afterAll(() => rm(folder, { recursive: true }))

async function storeOriginal(bytes: Uint8Array): Promise<string> {
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const path = originalPath(folder, sha256)
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, bytes)
  return sha256
}

/** The colours at the middle of the four quarters, from top left to bottom right. */
async function quartersOf(image: string | Uint8Array): Promise<readonly (readonly number[])[]> {
  const { data, info } = await sharp(image).raw().toBuffer({ resolveWithObject: true })
  const at = (x: number, y: number) => {
    const start = (Math.floor(y * info.height) * info.width + Math.floor(x * info.width)) * info.channels
    return [...data.subarray(start, start + 3)]
  }
  return [at(0.25, 0.25), at(0.75, 0.25), at(0.25, 0.75), at(0.75, 0.75)]
}

function expectNear(actual: readonly (readonly number[])[], wanted: readonly (readonly number[])[]): void {
  const furthest = Math.max(
    ...actual.flatMap((colour, index) =>
      colour.map((value, c) => Math.abs(value - (wanted[index]?.[c] ?? -999))),
    ),
  )
  expect(furthest, JSON.stringify(actual)).toBeLessThanOrEqual(12)
}

describe('makeSizes', () => {
  it('makes only the sizes that were asked for', async () => {
    const sha256 = await storeOriginal(await createTestPhoto({ width: 800, height: 600, color: '#396' }))
    expect(await makeSizes(folder, sha256, ['thumb'])).toEqual({ ok: true, value: true })
    const { width, height } = await sharp(sizePath(folder, sha256, 'thumb')).metadata()
    expect([width, height]).toEqual([320, 240])
    for (const size of ['screen', 'report'] as const)
      await expect(readFile(sizePath(folder, sha256, size))).rejects.toThrow('ENOENT')
  })

  it('makes thumb, screen and report sizes by their longest side, without camera data', async () => {
    const sha256 = await storeOriginal(
      await createTestPhoto({ width: 2400, height: 1800, color: '#963', taken: '2026:11:05 14:03:22' }),
    )
    expect(await makeSizes(folder, sha256)).toEqual({ ok: true, value: true })
    const made = await Promise.all(
      PHOTO_SIZE_NAMES.map(async (size) => {
        const { format, width, height, exif } = await sharp(sizePath(folder, sha256, size)).metadata()
        return { size, format, width, height, exif }
      }),
    )
    expect(made).toEqual([
      { size: 'thumb', format: 'webp', width: 320, height: 240, exif: undefined },
      { size: 'screen', format: 'webp', width: 1600, height: 1200, exif: undefined },
      { size: 'report', format: 'jpeg', width: 1000, height: 750, exif: undefined },
    ])
    expect(await readdir(join(folder, 'incoming'))).toEqual([])
  })

  it.each([1, 2, 3, 4, 5, 6, 7, 8] as const)(
    'shows EXIF orientation %d upright in every size',
    async (orientation) => {
      for (const format of ['jpeg', 'png', 'webp'] as const) {
        const sha256 = await storeOriginal(await createQuarteredPhoto(orientation, format))
        expect(await makeSizes(folder, sha256)).toMatchObject({ ok: true })
        for (const size of PHOTO_SIZE_NAMES)
          expectNear(await quartersOf(sizePath(folder, sha256, size)), QUARTERS)
      }
    },
  )

  it('never makes a photo larger than it is', async () => {
    const sha256 = await storeOriginal(await createTestPhoto({ width: 200, height: 100, color: '#963' }))
    await makeSizes(folder, sha256)
    for (const size of PHOTO_SIZE_NAMES)
      expect(await sharp(sizePath(folder, sha256, size)).metadata()).toMatchObject({
        width: 200,
        height: 100,
      })
  })

  it('shows a HEIC photo as its own rotation says, once', async () => {
    const bytes = await readFile(new URL('../../fixtures/sample.heic', import.meta.url))
    const sha256 = await storeOriginal(bytes)
    expect(await makeSizes(folder, sha256)).toMatchObject({ ok: true })
    const screen = sizePath(folder, sha256, 'screen')
    expect(await sharp(screen).metadata()).toMatchObject({ width: 320, height: 480 })
    // Drawn 480 x 320 with a red left, a blue right and a green bar on top, then turned 90 degrees clockwise.
    const red = [192, 48, 32]
    const blue = [32, 64, 176]
    const quarters = await quartersOf(screen)
    expectNear([quarters[0] ?? [], quarters[2] ?? []], [red, blue])
    const bar = await sharp(screen).extract({ left: 290, top: 230, width: 20, height: 20 }).toBuffer()
    const green = [48, 160, 64]
    expectNear(await quartersOf(bar), [green, green, green, green])
  })

  it('lays a transparent photo on white', async () => {
    const clear = {
      create: { width: 60, height: 40, channels: 4, background: { r: 0, g: 0, b: 0, alpha: 0 } },
    } as const
    const sha256 = await storeOriginal(await sharp(clear).png().toBuffer())
    await makeSizes(folder, sha256)
    const white = [255, 255, 255]
    expectNear(await quartersOf(sizePath(folder, sha256, 'report')), [white, white, white, white])
  })

  it('makes a lost or damaged size again', async () => {
    const sha256 = await storeOriginal(await createTestPhoto({ width: 500, height: 400, color: '#396' }))
    await makeSizes(folder, sha256)
    const first = await readFile(sizePath(folder, sha256, 'thumb'))
    await writeFile(sizePath(folder, sha256, 'thumb'), 'damaged')
    await rm(sizePath(folder, sha256, 'screen'))
    expect(await makeSizes(folder, sha256)).toMatchObject({ ok: true })
    expect(await readFile(sizePath(folder, sha256, 'thumb'))).toEqual(first)
    expect(await sharp(sizePath(folder, sha256, 'screen')).metadata()).toMatchObject({ width: 500 })
  })

  it('leaves the original as it is', async () => {
    const bytes = await createTestPhoto({ width: 500, height: 400, color: '#936', orientation: 6 })
    const sha256 = await storeOriginal(bytes)
    await makeSizes(folder, sha256)
    expect(await readFile(originalPath(folder, sha256))).toEqual(bytes)
  })

  it('says when the original is missing or cannot be read', async () => {
    const nothing = 'ab'.repeat(32)
    expect(await makeSizes(folder, nothing)).toMatchObject({ ok: false, problem: { code: 'missing' } })
    expect(await makeSizes(folder, '../../etc')).toMatchObject({ ok: false, problem: { code: 'missing' } })
    const bytes = await createTestPhoto({ width: 500, height: 400, color: '#936' })
    const cut = await storeOriginal(bytes.subarray(0, bytes.length / 2))
    expect(await makeSizes(folder, cut)).toMatchObject({ ok: false, problem: { code: 'truncated' } })
  })
})

describe('renderSize', () => {
  it('gives one size and writes nothing', async () => {
    const reading = await mkdtemp(join(folder, 'reading-'))
    const bytes = await createQuarteredPhoto(8)
    const sha256 = await storeOriginal(bytes)
    const path = originalPath(reading, sha256)
    await mkdir(dirname(path), { recursive: true })
    await copyFile(originalPath(folder, sha256), path)
    const before = await readdir(reading, { recursive: true })
    const result = await renderSize(reading, sha256, 'report')
    if (!result.ok) throw new Error(result.problem.message)
    expect((await sharp(result.value).metadata()).format).toBe('jpeg')
    expectNear(await quartersOf(result.value), QUARTERS)
    expect(await readdir(reading, { recursive: true })).toEqual(before)
  })

  it('renders the report size at 200 dpi or more on 127 mm', () => {
    expect(PHOTO_SIZES.report.longestSide / (127 / 25.4)).toBeGreaterThanOrEqual(200)
  })
})

describe('renderCut', () => {
  it.each([1, 3, 6, 8] as const)(
    'cuts the upright picture, however its pixels lie (orientation %i)',
    async (orientation) => {
      const sha256 = await storeOriginal(await createQuarteredPhoto(orientation))
      for (const [index, colour] of QUARTERS.entries()) {
        const cut = { left: index % 2 === 0 ? 0 : 0.5, top: index < 2 ? 0 : 0.5, width: 0.5, height: 0.5 }
        const rendered = await renderCut(folder, sha256, cut)
        if (!rendered.ok) throw new Error(rendered.problem.message)
        const { width, height } = await sharp(rendered.value).metadata()
        expect([width, height]).toEqual([30, 20])
        expectNear(await quartersOf(rendered.value), [colour, colour, colour, colour])
      }
    },
  )

  it('holds as many pixels as the original has there, up to report size', async () => {
    const sha256 = await storeOriginal(await createTestPhoto({ width: 2400, height: 1800, color: '#963' }))
    const sizeOf = async (share: number) => {
      const rendered = await renderCut(folder, sha256, { left: 0, top: 0, width: share, height: share })
      return rendered.ok ? (await sharp(rendered.value).metadata()).width : null
    }
    expect(await sizeOf(0.25)).toBe(600)
    expect(await sizeOf(0.5)).toBe(1000)
  })

  it('says that a photo is missing', async () => {
    const cut = { left: 0, top: 0, width: 0.5, height: 0.5 }
    expect(await renderCut(folder, '0'.repeat(64), cut)).toMatchObject({ problem: { code: 'missing' } })
  })
})
