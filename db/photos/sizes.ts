import { randomUUID } from 'node:crypto'
import { mkdir, open, rename, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import type { Sharp } from 'sharp'
import { decodeHeicPixels } from './heic.ts'
import { incomingFolder, isSha256, originalPath, sizePath } from './photo-files.ts'
import {
  MAX_PHOTO_PIXELS,
  diskProblem,
  isSystemError,
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
    if (isSystemError(error) && error.code === 'ENOENT') return photoFailure(missing(sha256))
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
  await mkdir(incomingFolder(folder), { recursive: true })
  await mkdir(dirname(path), { recursive: true })
  try {
    const file = await open(temporary, 'wx')
    try {
      await file.writeFile(bytes)
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(temporary, path)
  } finally {
    await rm(temporary, { force: true })
  }
}
