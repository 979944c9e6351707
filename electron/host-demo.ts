import type { Database } from '../db/database.ts'
import { DatabaseProblem } from '../db/database-problem.ts'
import { demoWorkshop } from '../db/demo/demo-people.ts'
import { fillDemo } from '../db/demo/fill-demo.ts'
import { createWorkDays } from '../db/demo/work-days.ts'
import { latestTime } from '../db/host-clock.ts'
import type { PhotoStore } from '../db/photos/photo-store.ts'
import { readWorkshop } from '../db/reads.ts'
import { readSetting } from '../db/settings.ts'
import { localDateOf } from '../domain/time/zone.ts'
import type { ApiDeps } from './api/deps.ts'
import { DEMO_TIME, type HostClock } from './host-clock.ts'

export const demoZone = demoWorkshop.zone

/** The same demo wherever it is filled on the same day. */
const SEED = 'panelwright'

/**
 * On a day off the demo shows the last working day: nobody is at work, and the clocks of its people would run for days. It
 * starts at 10:40 there, or where its last fact is later, goes on from that. Facts of the same folder keep their order.
 */
export function keepDemoAtWork(db: Database, clock: HostClock): void {
  const now = clock.now()
  const today = localDateOf(now, demoZone)
  const days = createWorkDays(today, demoZone)
  if (days.date(0) !== today) clock.goOnFrom(latestTime(db, days.at(0, DEMO_TIME)))
}

/** Fills an empty folder with the demo, up to now or, on a day off, up to the last working day. */
export function createDemoFiller(
  db: Database,
  photoStore: PhotoStore,
  clock: HostClock,
): ApiDeps['fillDemo'] {
  return (onProgress) => {
    keepDemoAtWork(db, clock)
    const until = clock.now()
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
