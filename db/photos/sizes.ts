import { randomUUID } from 'node:crypto'
import { rename, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import type { Sharp } from 'sharp'
import { makeBelow } from '../move-for-good.ts'
import { isMissing } from '../system-error.ts'
import { decodeHeicPixels } from './heic.ts'
import { incomingFolder, isSha256, originalPath, sizePath } from './photo-files.ts'
import {
  MAX_PHOTO_PIXELS,
  diskProblem,
  missing,
  photoFailure,
  truncated,
  type PhotoResult,
} from './photo-problem.ts'
import { PHOTO_SIZES, PHOTO_SIZE_NAMES, type PhotoSize } from './photo-size.ts'
import { readHead } from './read-head.ts'
import { sharp } from './sharp.ts'
import { sniff } from './sniff.ts'

/**
 * Makes sizes of a stored photo anew, all of them unless said, and puts them beside the originals; decodes the original
 * once. Takes up to some seconds: call it in a worker.
 */
export async function makeSizes(
  folder: string,
  sha256: string,
  sizes: readonly PhotoSize[] = PHOTO_SIZE_NAMES,
): Promise<PhotoResult<true>> {
  if (!isSha256(sha256)) return photoFailure(missing(sha256))
  const longestSide = Math.max(...sizes.map((size) => PHOTO_SIZES[size].longestSide))
  const largest = await decodeUpright(originalPath(folder, sha256), sha256, longestSide)
  if (!largest.ok) return largest
  try {
    for (const size of sizes) {
      const bytes = await encode(fromPixels(largest.value), size)
      await writeWhole(folder, sizePath(folder, sha256, size), bytes)
    }
    return { ok: true, value: true }
  } catch (error) {
    return photoFailure(diskProblem(error))
  }
}

/** One size in memory, for those who only read the folder, such as a report printed beside a running host. */
export async function renderSize(
  folder: string,
  sha256: string,
  size: PhotoSize,
): Promise<PhotoResult<Uint8Array>> {
  if (!isSha256(sha256)) return photoFailure(missing(sha256))
  const pixels = await decodeUpright(originalPath(folder, sha256), sha256, PHOTO_SIZES[size].longestSide)
  return pixels.ok ? { ok: true, value: await encode(fromPixels(pixels.value), size) } : pixels
}

/** The part of a photo that is shown, in shares of the upright picture. */
export interface PhotoCut {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** A part of the original as a JPEG in report size, in memory: it holds as many pixels as the original has there. */
export async function renderCut(
  folder: string,
  sha256: string,
  cut: PhotoCut,
): Promise<PhotoResult<Uint8Array>> {
  if (!isSha256(sha256)) return photoFailure(missing(sha256))
  const source = await openSource(originalPath(folder, sha256), sha256)
  if (!source.ok) return source
  try {
    const { autoOrient: whole } = await source.value.metadata()
    const upright = source.value.autoOrient().extract(cutToPixels(cut, whole))
    const image = upright.flatten({ background: 'white' }).toColourspace('srgb')
    return { ok: true, value: await encode(image, 'report') }
  } catch {
    return photoFailure(truncated)
  }
}

/** Whole pixels inside the picture, one at least. */
function cutToPixels(cut: PhotoCut, whole: { readonly width: number; readonly height: number }) {
  const left = Math.min(Math.round(cut.left * whole.width), whole.width - 1)
  const top = Math.min(Math.round(cut.top * whole.height), whole.height - 1)
  const width = Math.max(1, Math.min(Math.round(cut.width * whole.width), whole.width - left))
  const height = Math.max(1, Math.min(Math.round(cut.height * whole.height), whole.height - top))
  return { left, top, width, height }
}

interface Pixels {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
  readonly channels: 1 | 2 | 3 | 4
}

/** Upright, at most `longestSide` px, sRGB, on white where the photo is transparent. */
async function decodeUpright(
  path: string,
  sha256: string,
  longestSide: number,
): Promise<PhotoResult<Pixels>> {
  const source = await openSource(path, sha256)
  if (!source.ok) return source
  try {
    const { data, info } = await source.value
      .autoOrient()
      .resize(longestSide, longestSide, { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: 'white' })
      .toColourspace('srgb')
      .raw()
      .toBuffer({ resolveWithObject: true })
    return { ok: true, value: { data, width: info.width, height: info.height, channels: info.channels } }
  } catch {
    return photoFailure(truncated)
  }
}

async function openSource(path: string, sha256: string): Promise<PhotoResult<Sharp>> {
  const head = await readHeadOf(path, sha256)
  if (!head.ok) return head
  const sniffed = sniff(head.value)
  if (sniffed.kind === 'photo' && sniffed.type === 'heic') {
    const pixels = await decodeHeicPixels(path)
    return pixels.ok ? { ok: true, value: fromPixels({ ...pixels.value, channels: 4 }) } : pixels
  }
  return { ok: true, value: sharp(path, { failOn: 'error', limitInputPixels: MAX_PHOTO_PIXELS }) }
}

async function readHeadOf(path: string, sha256: string): Promise<PhotoResult<Uint8Array>> {
  try {
    return { ok: true, value: await readHead(path) }
  } catch (error) {
    if (isMissing(error)) return photoFailure(missing(sha256))
    return photoFailure(diskProblem(error))
  }
}

function fromPixels({ data, width, height, channels }: Pixels): Sharp {
  return sharp(data, { raw: { width, height, channels } })
}

function encode(image: Sharp, size: PhotoSize): Promise<Buffer> {
  const { longestSide, format } = PHOTO_SIZES[size]
  const resized = image.resize(longestSide, longestSide, { fit: 'inside', withoutEnlargement: true })
  return (
    format === 'webp' ? resized.webp({ quality: 78 }) : resized.jpeg({ quality: 78, mozjpeg: true })
  ).toBuffer()
}

/** Readers find the old file or the whole new one, never a half. A size lost in a power cut is made again. */
async function writeWhole(folder: string, path: string, bytes: Uint8Array): Promise<void> {
  const temporary = join(incomingFolder(folder), `${randomUUID()}.part`)
  await makeBelow(folder, incomingFolder(folder))
  await makeBelow(folder, dirname(path))
  try {
    await writeFile(temporary, bytes, { flag: 'wx', flush: true })
    await rename(temporary, path)
  } finally {
    await rm(temporary, { force: true })
  }
}
