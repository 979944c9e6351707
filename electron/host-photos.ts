import { existsSync } from 'node:fs'
import { plural } from '../domain/text/words.ts'
import { DatabaseProblem } from '../db/database-problem.ts'
import type { Database } from '../db/database.ts'
import { photoTotals } from '../db/photo-rows.ts'
import { originalsFolder } from '../db/photos/photo-files.ts'
import { openPhotoStore, type PhotoStore, type PhotoStoreOptions } from '../db/photos/photo-store.ts'
import { refusalWords } from '../domain/refusal.ts'

/**
 * Opens the photos of a workshop. Where they should be and are not, the disk that holds them is not attached: a new folder in its
 * place would take photos that nobody finds again.
 *
 * @throws DatabaseProblem that says what to do
 */
export async function openHostPhotos(
  db: Database,
  folder: string,
  inspect: PhotoStoreOptions['inspect'],
): Promise<PhotoStore> {
  const { photos } = photoTotals(db)
  const originals = originalsFolder(folder)
  if (photos > 0 && !existsSync(originals))
    throw new DatabaseProblem(
      `${originals} is not there, but ${plural('photo', photos)} of this workshop ${photos === 1 ? 'lies' : 'lie'} in it. Attach the disk that holds it and start again. If the photos are lost, make an empty folder of this name, start, and let Check take them from a copy.`,
    )
  const opened = await openPhotoStore(folder, { inspect })
  if (!opened.ok) throw new DatabaseProblem(refusalWords(opened.problem))
  return opened.value
}
