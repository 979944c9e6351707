import type { PhotoReader } from '../../db/photos/photo-store.ts'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import { type OwnerWeek, reportPhotos, type ReportPhoto } from '../../domain/report/owner-week-shapes.ts'

/** Photos of a report whose originals are not in the photo folder any more. */
export async function gonePhotos(
  photos: Pick<PhotoReader, 'readOriginal'>,
  content: OwnerWeek,
): Promise<readonly ReportPhoto[]> {
  const gone: ReportPhoto[] = []
  for (const photo of reportPhotos(content)) {
    const original = await photos.readOriginal(photo.sha256)
    if (original.ok) await original.value.stream.cancel()
    else gone.push(photo)
  }
  return gone
}

/** Why a report with this photo cannot be issued, and where the photo can be had. */
export function gonePhotoRefusal({ caption, taken, sha256 }: ReportPhoto): Refusal {
  return refuse(
    'storage',
    `The file of the photo '${caption}' (${taken}) is gone from the photo folder.`,
    `Bring it back from the newest copy of the workshop (its name begins with ${sha256.slice(0, 12)}), or choose other photos for this report.`,
  ).refusal
}
