import type { Database } from '../db/database.ts'
import { DatabaseProblem } from '../db/database-problem.ts'
import { demoWorkshop } from '../db/demo/demo-people.ts'
import { fillDemo } from '../db/demo/fill-demo.ts'
import type { PhotoStore } from '../db/photos/photo-store.ts'
import { readWorkshop } from '../db/reads.ts'
import { readSetting } from '../db/settings.ts'
import { localDateOf } from '../domain/time/zone.ts'
import type { ApiDeps } from './api/deps.ts'

export const demoZone = demoWorkshop.zone

/** The same demo wherever it is filled on the same day. */
const SEED = 'panelwright'

/** Fills an empty folder with the demo, up to now. */
export function createDemoFiller(
  db: Database,
  photoStore: PhotoStore,
  now: () => number,
): ApiDeps['fillDemo'] {
  return (onProgress) => {
    const until = now()
    return fillDemo({ db, photoStore, today: localDateOf(until, demoZone), until, seed: SEED, onProgress })
  }
}

const PHOTOS_BETWEEN_WORDS = 50

/**
 * What `--demo` does: fills an empty folder, leaves a demo as it is.
 *
 * @throws DatabaseProblem when the folder holds somebody's own workshop
 */
export async function requireDemo(
  db: Database,
  fill: ApiDeps['fillDemo'],
  say: (words: string) => void,
): Promise<void> {
  if (readSetting(db, 'demo') !== null) return
  if (readWorkshop(db).setUp) {
    throw new DatabaseProblem(
      'This data folder holds a workshop of its own; the demo only goes into an empty one. Name another with --data.',
    )
  }
  say('Filling the demo workshop; this takes a minute or two.')
  await fill(({ done, total }) => {
    if (done % PHOTOS_BETWEEN_WORDS === 0) say(`${done} of ${total} photos`)
  })
}
