import { readFile } from 'node:fs/promises'
import type { Metadata } from 'sharp'
import { decodeHeicPixels, isWholeBoxFile } from './heic.ts'
import {
  MAX_PHOTO_PIXELS,
  empty,
  heicUnsupported,
  notAnImage,
  photoFailure,
  tooManyPixels,
  truncated,
  type PhotoResult,
} from './photo-problem.ts'
import { readCameraTime, toOrientation, type CameraTime, type Orientation } from './read-facts.ts'
import { readHead } from './read-head.ts'
import { sharp } from './sharp.ts'
import { sniff, type PhotoType } from './sniff.ts'

export interface PhotoFacts {
  readonly type: PhotoType
  /** Pixels, as shown: turned upright. */
  readonly width: number
  readonly height: number
  /** How the stored pixels lie. HEIC carries its rotation in the picture itself and is always 1 here. */
  readonly orientation: Orientation
  readonly taken: CameraTime | null
}

/**
 * The check at intake: kind by content, pixel count from the header before anything is decoded, then every pixel decoded
 * once, so that a cut photo is refused while the person still has it. Decoding takes up to some seconds: call it in a
 * worker. Not checked: that the pixels are right; a few changed bytes inside a JPEG may decode without complaint.
 */
export async function inspectPhoto(path: string): Promise<PhotoResult<PhotoFacts>> {
  const head = await readHead(path)
  if (head.byteLength === 0) return photoFailure(empty)
  const sniffed = sniff(head)
  if (sniffed.kind === 'other') return photoFailure(notAnImage(sniffed.looksLike))
  const header = await readHeader(path, sniffed.type)
  if (!header.ok) return header
  const { width, height } = header.value.autoOrient
  if (width * height > MAX_PHOTO_PIXELS) return photoFailure(tooManyPixels(width, height))
  const decoded = await decodeFully(path, sniffed.type)
  if (!decoded.ok) return decoded
  const orientation = sniffed.type === 'heic' ? 1 : toOrientation(header.value.orientation)
  const taken = await readCameraTime(header.value.exif)
  return { ok: true, value: { type: sniffed.type, width, height, orientation, taken } }
}

/** The decoder's own idea of the kind must be the sniffed one, so that no file is two things at once. */
async function readHeader(path: string, type: PhotoType): Promise<PhotoResult<Metadata>> {
  try {
    const header = await sharp(path, { limitInputPixels: false }).metadata()
    const format = type === 'heic' ? 'heif' : type
    return header.format === format ? { ok: true, value: header } : photoFailure(notAnImage('a mixed file'))
  } catch {
    return photoFailure(type === 'heic' && isWholeBoxFile(await readFile(path)) ? heicUnsupported : truncated)
  }
}

/** Down to 64 px: every byte is read and decoded, line by line, and nothing of it is kept in memory. */
async function decodeFully(path: string, type: PhotoType): Promise<PhotoResult<true>> {
  if (type === 'heic') {
    const decoded = await decodeHeicPixels(path)
    return decoded.ok ? { ok: true, value: true } : decoded
  }
  try {
    const options = { failOn: 'error', limitInputPixels: MAX_PHOTO_PIXELS, sequentialRead: true } as const
    await sharp(path, options).resize(64, 64, { fit: 'inside' }).raw().toBuffer()
    return { ok: true, value: true }
  } catch {
    return photoFailure(truncated)
  }
}
