import type { Moment } from '../../domain/car.ts'
import { localToInstant } from '../../domain/time/zone.ts'
import { DatabaseProblem } from '../database-problem.ts'
import type { Database } from '../database.ts'
import { executeCommands } from '../execute-command.ts'
import type { CommandRequest } from '../gather.ts'
import { inTransaction } from '../handle.ts'
import { lastNumber } from '../journal.ts'
import { recordPhoto } from '../photo-rows.ts'
import type { PhotoStore, StoredPhoto } from '../photos/photo-store.ts'
import { makeSizes } from '../photos/sizes.ts'
import { writeSetting } from '../settings.ts'
import { demoWorkshop } from './demo-people.ts'
import { demoPlans, keepDemoPlan, type DemoPlan } from './demo-plans.ts'
import { drawPhotos } from './draw-photos.ts'
import { rehearseDemo } from './rehearse-demo.ts'
import type { DemoScript, OrderedPhoto } from './stage.ts'
import { drawTinyPhotos } from './tiny-photos.ts'
import { createWorkDays } from './work-days.ts'

export interface DemoOptions {
  readonly db: Database
  readonly photoStore: PhotoStore
  /** Local date that the demo is filled up to, YYYY-MM-DD. */
  readonly today: string
  /** No fact lies after this, nor after the afternoon of `today`; 10:40 of that day when left out. */
  readonly until?: Moment
  /** The same seed and times give the same demo, but for salts, codes' hashes and the photos' place on the disk. */
  readonly seed: string
  /** 'tiny' for tests that never look at a photo. */
  readonly photos?: 'drawn' | 'tiny'
  readonly onProgress?: (progress: DemoProgress) => void
}

/** How many photos are there; the facts follow all at once when the last one is. */
export interface DemoProgress {
  readonly done: number
  readonly total: number
}

/**
 * Fills an empty data folder with the demo workshop: nine cars, seven people, eight months of facts, all through the one
 * way in which anything comes into the journal. The facts are recorded in one transaction after the photos are stored,
 * so that a fill that was cut off leaves an empty workshop and can be begun again.
 *
 * @throws DatabaseProblem when there is a workshop already or the disk fails; its message says what to do
 */
export async function fillDemo(options: DemoOptions): Promise<void> {
  const { db, today, seed, photos = 'drawn' } = options
  if (lastNumber(db) > 0)
    throw new DatabaseProblem('This folder holds a workshop already: name an empty folder for the demo.')
  const until = options.until ?? localToInstant(today, USUAL_TIME, demoWorkshop.zone)
  const script = rehearseDemo({ today, until, seed })
  const stored = await storePhotos(script.photos, options, photos === 'tiny' ? drawTinyPhotos : drawPhotos)
  recordAll(db, script, stored, demoPlans(createWorkDays(today, demoWorkshop.zone)))
}

const USUAL_TIME = '10:40'

/** By the placeholder that stands for it in the script. */
type StoredPhotos = ReadonlyMap<string, StoredPhoto>

async function storePhotos(
  photos: readonly OrderedPhoto[],
  { photoStore, onProgress }: DemoOptions,
  draw: typeof drawPhotos,
): Promise<StoredPhotos> {
  const stored = new Map<string, StoredPhoto>()
  await draw(
    photos.map(({ photo }) => photo),
    async (bytes, index) => {
      const added = await photoStore.add(bytes)
      if (!added.ok) throw new DatabaseProblem(added.problem.message)
      const made = await makeSizes(photoStore.folder, added.value.sha256, ['thumb'])
      if (!made.ok) throw new DatabaseProblem(made.problem.message)
      const { placeholder = '' } = photos[index] ?? {}
      stored.set(placeholder, added.value)
      onProgress?.({ done: stored.size, total: photos.length })
    },
  )
  return stored
}

function recordAll(
  db: Database,
  { photos, requests }: DemoScript,
  stored: StoredPhotos,
  plans: readonly DemoPlan[],
): void {
  const digestOf = (placeholder: string): string => storedPhoto(stored, placeholder).sha256
  inTransaction(db.writer, () => {
    for (const { placeholder, received } of photos)
      recordPhoto(db, storedPhoto(stored, placeholder), received)
    let left = requests.map((request) => withRealPhoto(request, digestOf))
    for (const plan of plans) {
      recordThose(
        db,
        left.filter(({ now }) => now < plan.at),
      )
      left = left.filter(({ now }) => now >= plan.at)
      keepDemoPlan(db, plan)
    }
    recordThose(db, left)
    writeSetting(db, 'demo', 'yes')
  })
}

function recordThose(db: Database, requests: readonly CommandRequest[]): void {
  const answer = executeCommands(db, requests)
  if (!answer.ok) throw new DatabaseProblem(`${answer.refusal.message} ${answer.refusal.next}`)
}

function storedPhoto(stored: StoredPhotos, placeholder: string): StoredPhoto {
  const photo = stored.get(placeholder)
  if (!photo) throw new Error('A photo of the demo was not stored.')
  return photo
}

/** Two commands name a photo by its digest. */
function withRealPhoto(request: CommandRequest, digestOf: (placeholder: string) => string): CommandRequest {
  const { command } = request
  const payload = command.payload as {
    readonly sha256?: string
    readonly photo?: { readonly sha256: string } | null
  }
  if (command.kind === 'attachPhoto' && payload.sha256 !== undefined)
    return { ...request, command: { ...command, payload: { ...payload, sha256: digestOf(payload.sha256) } } }
  if (command.kind === 'addCar' && payload.photo)
    return {
      ...request,
      command: {
        ...command,
        payload: { ...payload, photo: { ...payload.photo, sha256: digestOf(payload.photo.sha256) } },
      },
    }
  return request
}
