import { Buffer } from 'node:buffer'
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { readCameraTime, toOrientation } from '../../../db/photos/read-facts.ts'
import { createTestPhoto, type TestPhoto } from '../../support/images.ts'

async function cameraTimeOf(photo: Partial<TestPhoto>) {
  const bytes = await createTestPhoto({ width: 24, height: 16, color: '#886644', ...photo })
  return readCameraTime((await sharp(bytes).metadata()).exif)
}

/**
 * A TIFF block with one Exif entry, written by hand after the TIFF 6.0 layout (from memory), so that fields of any type
 * can be tried.
 */
function tiffWith(tag: number, type: number, count: number, value: number): Buffer {
  const block = Buffer.alloc(44)
  block.write('II*\0', 0, 'latin1')
  block.writeUInt32LE(8, 4)
  block.writeUInt16LE(1, 8)
  writeEntry(block, 10, 0x8769, 4, 1, 26)
  block.writeUInt16LE(1, 26)
  writeEntry(block, 28, tag, type, count, value)
  return block
}

function writeEntry(
  block: Buffer,
  at: number,
  tag: number,
  type: number,
  count: number,
  value: number,
): void {
  block.writeUInt16LE(tag, at)
  block.writeUInt16LE(type, at + 2)
  block.writeUInt32LE(count, at + 4)
  block.writeUInt32LE(value, at + 8)
}

describe('readCameraTime', () => {
  // EXIF 2.32: DateTimeOriginal is 0x9003, 'YYYY:MM:DD HH:MM:SS' without a zone; OffsetTimeOriginal is 0x9011.
  it.each(['jpeg', 'png', 'webp'] as const)('reads the local time and the offset of a %s', async (format) => {
    expect(await cameraTimeOf({ taken: '2026:11:05 14:03:22', offset: '+01:00', format })).toEqual({
      local: '2026-11-05T14:03:22',
      offset: '+01:00',
    })
  })

  it('leaves the offset open when the camera did not say it', async () => {
    expect(await cameraTimeOf({ taken: '2024:02:29 23:59:59' })).toEqual({
      local: '2024-02-29T23:59:59',
      offset: null,
    })
  })

  it.each(['Z', '+1:00', '+15:00', '-12:30', '+01:75', 'Europe'])(
    'reads the offset %j as none',
    async (offset) => {
      expect(await cameraTimeOf({ taken: '2026:11:05 14:03:22', offset })).toEqual({
        local: '2026-11-05T14:03:22',
        offset: null,
      })
    },
  )

  it.each([
    'Sunday, 11am',
    '0000:00:00 00:00:00',
    '2026:02:29 10:00:00',
    '2026:13:01 10:00:00',
    '2026:11:00 10:00:00',
    '2026:11:05 24:00:00',
    '2026:11:05 10:60:00',
    '2026-11-05T10:00:00',
    '    :  :     :  :  ',
  ])('reads the date field %j as no date', async (taken) => {
    expect(await cameraTimeOf({ taken })).toBeNull()
  })

  it('answers null for a photo without EXIF', async () => {
    expect(await readCameraTime(undefined)).toBeNull()
  })

  it('answers null for a date field that is a number', async () => {
    expect(await readCameraTime(tiffWith(0x9003, 4, 1, 20261105))).toBeNull()
  })

  it('answers null for a date field whose text lies outside the block', async () => {
    expect(await readCameraTime(tiffWith(0x9003, 2, 20, 0x7fffffff))).toBeNull()
  })

  it.each([0, 4, 9, 30, 100])('answers null for a block cut to %d bytes', async (length) => {
    const bytes = await createTestPhoto({
      width: 24,
      height: 16,
      color: '#864',
      taken: '2026:11:05 14:03:22',
    })
    const { exif } = await sharp(bytes).metadata()
    expect(exif).toBeDefined()
    expect(await readCameraTime(exif?.subarray(0, length))).toBeNull()
  })
})

describe('toOrientation', () => {
  it('keeps 1 to 8 and takes everything else for upright', () => {
    expect([1, 2, 3, 4, 5, 6, 7, 8].map(toOrientation)).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
    expect([0, 9, -1, 1.5, undefined].map(toOrientation)).toEqual([1, 1, 1, 1, 1])
  })
})
