import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import {
  MAX_PHOTO_PIXELS,
  heicUnsupported,
  photoFailure,
  tooManyPixels,
  truncated,
  type PhotoResult,
} from './photo-problem.ts'

export interface HeicPixels {
  readonly width: number
  readonly height: number
  /** RGBA, 8 bits each, turned upright by the file's own rotation. */
  readonly data: Uint8Array
}

/**
 * Decodes a HEIC photo; sharp's own libheif comes without HEVC. The decoder is WebAssembly and runs on the calling
 * thread for up to some seconds: call it in a worker. Its memory is only given back when the worker ends.
 * Colour profiles are not applied.
 */
export async function decodeHeicPixels(path: string): Promise<PhotoResult<HeicPixels>> {
  const bytes = await readFile(path)
  if (!isWholeBoxFile(bytes)) return photoFailure(truncated)
  const decodeHeic = loadDecoder()
  try {
    const images = await decodeHeic.all({ buffer: bytes })
    try {
      const [first] = images
      if (first === undefined) return photoFailure(heicUnsupported)
      if (first.width * first.height > MAX_PHOTO_PIXELS)
        return photoFailure(tooManyPixels(first.width, first.height))
      const { width, height, data } = await first.decode()
      return { ok: true, value: { width, height, data: new Uint8Array(data.buffer) } }
    } finally {
      images.dispose()
    }
  } catch (error) {
    if (hasBrokenDecoder(error)) throw error
    return photoFailure(heicUnsupported)
  }
}

/** What heic-decode 2 offers and is used here; the package comes without types. */
interface HeicDecoder {
  all(options: { readonly buffer: Uint8Array }): Promise<readonly HeicImage[] & { dispose(): void }>
}

interface HeicImage {
  readonly width: number
  readonly height: number
  decode(): Promise<{ width: number; height: number; data: Uint8ClampedArray<ArrayBuffer> }>
}

/** Only when a first HEIC comes: it is two megabytes of WebAssembly. */
function loadDecoder(): HeicDecoder {
  return createRequire(import.meta.url)('heic-decode') as HeicDecoder
}

/** Out of memory or a trap: the decoder cannot be used again, so the worker ends and a fresh one takes over. */
function hasBrokenDecoder(error: unknown): boolean {
  return error instanceof RangeError || (error instanceof Error && error.name === 'RuntimeError')
}

/** False when the file ends inside a top-level box (ISO/IEC 14496-12), as one that was cut does. */
export function isWholeBoxFile(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  let at = 0
  while (at + 8 <= bytes.byteLength) {
    const size = view.getUint32(at)
    const isLong = size === 1 && at + 16 <= bytes.byteLength
    const length = isLong ? Number(view.getBigUint64(at + 8)) : size
    // 0 means 'to the end of the file'; anything else below a header's length is left to the decoder to judge.
    if (length < 8) return true
    at += length
  }
  return at === bytes.byteLength
}
