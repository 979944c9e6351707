import { buffer } from 'node:stream/consumers'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import { renderCut, renderSize } from '../../db/photos/sizes.ts'
import type { LoadPhoto } from './print-photos.ts'

/**
 * Reads photos in report size from a photo folder, and makes the size in memory where the folder does not have it; a cut is
 * always made from the original, so that it has its pixels. Writes nothing, so it may run beside a host.
 */
export function createPhotoLoader(folder: string): LoadPhoto {
  const reader = openPhotoReader(folder)
  return async (sha256, crop = null) => {
    if (crop !== null) {
      const cut = await renderCut(folder, sha256, crop)
      return cut.ok ? Buffer.from(cut.value) : null
    }
    const stored = await reader.readSize(sha256, 'report')
    if (stored.ok) return buffer(stored.value.stream)
    const rendered = await renderSize(folder, sha256, 'report')
    return rendered.ok ? Buffer.from(rendered.value) : null
  }
}
