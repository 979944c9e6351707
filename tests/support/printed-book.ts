import { mkdir, readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import { attachmentIdSchema } from '../../domain/ids.ts'
import type { CarBook } from '../../domain/report/car-book-shapes.ts'
import { buildCar, repairId } from './car-builder.ts'
import { bookOn } from './car-book.ts'
import { createTestPhoto } from './images.ts'

export const CAPTIONS = [
  'Boot floor before cutting',
  'The cavity, open',
  'Inner panel holed',
  'New edge let in',
  'Primed',
]

/** The book of a load-bearing repair with five photos at its gates, welded, and one that is not begun. */
export function photographedBook(digests: readonly string[]): CarBook {
  const car = buildCar()
    .repair('Boot floor', { loadBearing: true })
    .repair('Sill, left')
    .cover('Sill, left', 'Boot floor')
    .at('2026-11-24T09:00')
    .by('Wren')
  const gates = ['opened', 'opened', 'assessed', 'fabricated', 'primed'] as const
  CAPTIONS.forEach((caption, index) =>
    car.add('photoAttached', {
      attachmentId: attachmentIdSchema.parse(`photo-number-${index}`),
      sha256: digests[index % digests.length] ?? '',
      taken: null,
      caption,
      serves: [
        {
          what: 'gate',
          repairId: repairId('Boot floor'),
          gate: gates[index] ?? 'opened',
          shows: 'work',
          layerId: null,
        },
      ],
    }),
  )
  return bookOn(car.passTo('Boot floor', 'welded').reopen('Boot floor', 'primed').facts())
}

/** Three small photos of other shapes in a new photo folder; their digests. */
export async function storePhotos(photosFolder: string): Promise<readonly string[]> {
  const store = await openPhotoStore(photosFolder, { inspect: inspectPhoto })
  if (!store.ok) throw new Error(store.problem.message)
  const added: string[] = []
  for (const [width, height] of [
    [400, 300],
    [300, 400],
    [500, 200],
  ] as const) {
    const photo = await store.value.add(await createTestPhoto({ width, height, color: '#8a5a3a' }))
    if (!photo.ok) throw new Error(photo.problem.message)
    added.push(photo.value.sha256)
  }
  return added
}

/** Where a book may go: in a new folder of its own. */
export async function placeOfBook(folder: string, name: string): Promise<string> {
  const path = join(folder, name)
  await mkdir(path)
  return join(path, 'book.pdf')
}

/** What lies where the book was to go. */
export const beside = (to: string): Promise<readonly string[]> => readdir(join(to, '..'))
