import type { Database } from '../../db/database.ts'
import { photoRow, recordPhoto } from '../../db/photo-rows.ts'
import { problemToRefusal } from '../../db/photos/photo-problem.ts'
import type { PhotoStore } from '../../db/photos/photo-store.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { OpenBag } from '../bag/bag-shapes.ts'

export interface PhotosInto {
  readonly db: Database
  readonly photos: PhotoStore
  /** Epoch milliseconds. */
  readonly now: () => number
}

/**
 * Puts the photos of a bag into the store, one after the other; those that are there already stay as they are. What a later
 * failure leaves behind is attached to nothing, which does no harm.
 *
 * @param places where each lies in the bag, by its digest
 * @returns the digests of those that were not there before
 */
export async function takePhotos(
  bag: OpenBag,
  places: ReadonlyMap<string, string>,
  { db, photos, now }: PhotosInto,
  onTaken: (done: number) => void,
): Promise<Result<readonly string[]>> {
  const fresh: string[] = []
  let done = 0
  for (const [sha256, place] of places) {
    if (!(await isHere(sha256, { db, photos }))) {
      const stored = await photos.add(await bag.read(place))
      if (!stored.ok) return { ok: false, refusal: problemToRefusal(stored.problem) }
      if (stored.value.sha256 !== sha256) return changedMeanwhile
      recordPhoto(db, stored.value, now())
      fresh.push(sha256)
    }
    done += 1
    onTaken(done)
  }
  return ok(fresh)
}

async function isHere(sha256: string, { db, photos }: Pick<PhotosInto, 'db' | 'photos'>): Promise<boolean> {
  return photoRow(db, sha256) !== null && (await photos.verify(sha256)).ok
}

const changedMeanwhile = refuse(
  'bad-input',
  'The file was changed while it was being read.',
  'Choose the file again. Nothing was brought in.',
)
