import { Buffer } from 'node:buffer'
import { buffer } from 'node:stream/consumers'
import type { PhotoResult } from '../db/photos/photo-problem.ts'
import type { PhotoReader } from '../db/photos/photo-store.ts'
import type { ApiDeps } from './api/deps.ts'
import { printOwnerWeek, type LoadPhoto } from './print/print-owner-week.ts'
import type { ImagePool } from './workers/image-pool.ts'

/** Prints for the host, whose workers make what is missing of a photo's sizes. */
export function createReportPrinter(
  photos: PhotoReader,
  images: Pick<ImagePool, 'makeSizes'>,
): ApiDeps['printReport'] {
  const loadPhoto = createLoadPhoto(photos, async (sha256) => {
    const made = await images.makeSizes(sha256)
    return made.ok ? readReportSize(photos, sha256) : made
  })
  return (week, as) => printOwnerWeek(week, loadPhoto, as)
}

/**
 * Loads photos in report size for printing; null for one whose file is gone or damaged.
 *
 * @param make makes the size of a photo that has none yet
 */
export function createLoadPhoto(
  photos: PhotoReader,
  make: (sha256: string) => Promise<PhotoResult<Uint8Array>>,
): LoadPhoto {
  return async (sha256) => {
    const known = await readReportSize(photos, sha256)
    const bytes = known.ok ? known : await make(sha256)
    return bytes.ok ? Buffer.from(bytes.value) : null
  }
}

async function readReportSize(photos: PhotoReader, sha256: string): Promise<PhotoResult<Uint8Array>> {
  const found = await photos.readSize(sha256, 'report')
  return found.ok ? { ok: true, value: await buffer(found.value.stream) } : found
}
