import { randomUUID } from 'node:crypto'
import { open, mkdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { bringInCar, shellNumberIn } from '../../db/bring-in-car.ts'
import { keepCameJournal } from '../../db/brought-in-files.ts'
import { broughtInFolder, cameFilesFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { carsHere } from '../../db/ids-here.ts'
import type { PhotoResult } from '../../db/photos/photo-problem.ts'
import type { PhotoStore } from '../../db/photos/photo-store.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { bringInPreview, type BringInPreview } from '../../domain/bring-in/bring-in-preview.ts'
import { bringInRefusal } from '../../domain/bring-in/bring-in-refusal.ts'
import { carIdSchema } from '../../domain/ids.ts'
import { ok, refuse, type Refusal, type Result } from '../../domain/refusal.ts'
import type { BringInDesk, BringInOrder, BroughtInCar, CameFile } from '../api/bring-in-desk.ts'
import { refusalOf } from '../bag/bag-problem.ts'
import type { BagLimits } from '../bag/bag-shapes.ts'
import { readBag } from '../bag/read-bag.ts'
import { readCarFile, type CarFile } from './came-file.ts'
import { takePhotos } from './take-photos.ts'

export interface BringInDeskDeps {
  readonly db: Database
  readonly photos: PhotoStore
  readonly makeSizes: (sha256: string) => Promise<PhotoResult<true>>
  /** The host's clock, epoch milliseconds. */
  readonly now: () => number
  readonly log: (line: string) => void
  readonly limits?: BagLimits
}

/** 3,000 photos of 10 MB, with all else. Photos do not shrink, so an archive has about the size of what it holds. */
const LIMITS: BagLimits = { mostFiles: 20_000, mostBytes: 32 * 1024 ** 3 }

interface Kept {
  readonly fileId: string
  readonly path: string
  readonly car: CarFile
  photosDone: number
  /** Set while it is brought in, so that a second word for the same file waits for the first. */
  underWay: Promise<Result<BroughtInCar>> | null
}

export interface ClosableDesk extends BringInDesk {
  readonly close: () => Promise<void>
}

/**
 * Opens the desk of the host and clears what an earlier one was receiving. One file is kept at a time: what is received next
 * takes its place.
 *
 * @throws the operating system's error when the data folder cannot be written
 */
export async function openBringInDesk(deps: BringInDeskDeps): Promise<ClosableDesk> {
  const { dataDir } = deps.db
  const folder = dataDir === null ? join(tmpdir(), `panelwright-${randomUUID()}`) : cameFilesFolder(dataDir)
  await rm(folder, { recursive: true, force: true })
  const limits = deps.limits ?? LIMITS
  let kept: Kept | null = null
  const find = (fileId: string): Kept | null => (kept?.fileId === fileId ? kept : null)

  /** What is being brought in stays, as it is still read. */
  const drop = async (each: Kept | null): Promise<void> => {
    if (each === null || each.underWay !== null) return
    if (kept === each) kept = null
    await letGo(each.car, each.path)
  }

  const receive = async (body: AsyncIterable<Uint8Array>): Promise<Result<CameFile>> => {
    if (kept?.underWay) return busy
    const fileId = randomUUID()
    const path = join(folder, `${fileId}.zip`)
    const written = await writeAll(body, folder, path, limits.mostBytes)
    const car = written.ok ? await openCarFile(path, limits) : written
    if (!car.ok) {
      await rm(path, { force: true })
      return car
    }
    // It took its time: the file before may be brought in by now, or another one have come.
    if (kept?.underWay) {
      await letGo(car.value, path)
      return busy
    }
    const before = kept
    kept = { fileId, path, car: car.value, photosDone: 0, underWay: null }
    await drop(before)
    return ok({ fileId, preview: previewOf(deps.db, car.value) })
  }

  const bringIn = async (order: BringInOrder): Promise<Result<BroughtInCar>> => {
    const found = find(order.fileId)
    if (found === null) return unknownFile
    found.underWay ??= takeIn(deps, found, order).finally(() => {
      found.underWay = null
    })
    return found.underWay
  }

  return {
    receive,
    bringIn,
    progress: (fileId) => {
      const found = find(fileId)
      return found && { done: found.photosDone, of: found.car.photos.size }
    },
    drop: (fileId) => drop(find(fileId)),
    close: async () => {
      await kept?.underWay?.catch(() => null)
      await drop(kept)
      await rm(folder, { recursive: true, force: true })
    },
  }
}

async function letGo({ bag }: CarFile, path: string): Promise<void> {
  await bag.close()
  await rm(path, { force: true })
}

/** Writes an upload to the disk as it comes. */
async function writeAll(
  body: AsyncIterable<Uint8Array>,
  folder: string,
  path: string,
  mostBytes: number,
): Promise<Result<null>> {
  let bytes = 0
  try {
    await mkdir(folder, { recursive: true })
    const file = await open(path, 'wx')
    try {
      for await (const chunk of body) {
        bytes += chunk.byteLength
        if (bytes > mostBytes) return tooLarge
        await file.writeFile(chunk)
      }
    } finally {
      await file.close()
    }
    return bytes === 0 ? nothingCame : ok(null)
  } catch (error) {
    return { ok: false, refusal: connectionOrDisk(error) }
  }
}

/** A source that fails is a connection that broke off. */
function connectionOrDisk(error: unknown): Refusal {
  try {
    return refusalOf(error)
  } catch {
    return nothingCame.refusal
  }
}

async function openCarFile(path: string, limits: BagLimits): Promise<Result<CarFile>> {
  const bag = await readBag(path, limits)
  if (!bag.ok) return bag
  const car = await readCarFile(bag.value)
  if (!car.ok) await bag.value.close()
  return car
}

function previewOf(db: Database, { file, chain, taken }: CarFile): BringInPreview {
  const known = knownHere(db, file.car.carId)
  const refusal = bringInRefusal(shellNumberIn(taken.facts), known)
  const needsNumber = refusal !== null && known.car === null
  const { facts, lines, withheld: withheldLines } = chain
  return bringInPreview({ file, facts, taken, lines, withheldLines, refusal, needsNumber })
}

function knownHere(db: Database, carId: string) {
  const car = readCar(db, carIdSchema.parse(carId))
  return { car, ...carsHere(db.reader), zone: readWorkshop(db).zone }
}

/** First the files, then the facts that name them: what fails before leaves nothing that the journal knows. */
async function takeIn(deps: BringInDeskDeps, kept: Kept, order: BringInOrder): Promise<Result<BroughtInCar>> {
  const { db, now } = deps
  const { bag, chain, contacts, file, journal, photos, taken } = kept.car
  try {
    const stored = await takePhotos(bag, photos, deps, (done) => {
      kept.photosDone = done
    })
    if (!stored.ok) return stored
    const said = {
      from: file.workshop.name,
      head: chain.hash,
      lines: chain.lines,
      withheld: chain.withheld,
      leftOut: [...taken.leftOut.values()].reduce((sum, count) => sum + count, 0),
      journal: await keepCameJournal(broughtInFolder(db.dataDir ?? tmpdir()), journal),
      manifest: bag.manifest,
    }
    const { commandId: id, by, device, shellNumber } = order
    const { facts } = taken
    const answer = bringInCar(db, { id, by, device, shellNumber, now: now(), said, facts, contacts })
    if (!answer.ok) return answer
    void makeSizesOf(stored.value, deps)
    if (answer.carId === null) throw new Error('A car was brought in without an id.')
    return ok({ carId: answer.carId, revision: answer.revision })
  } catch (error) {
    return { ok: false, refusal: refusalOf(error) }
  }
}

/** One after the other, so that photos of people who work now come in between. What fails is made when it is looked at. */
async function makeSizesOf(
  digests: readonly string[],
  { makeSizes, log }: Pick<BringInDeskDeps, 'makeSizes' | 'log'>,
): Promise<void> {
  for (const sha256 of digests) {
    const made = await makeSizes(sha256).catch((error: unknown) => String(error))
    if (typeof made === 'string') return log(`Sizes of the photos of a car that was brought in: ${made}`)
  }
}

const busy = refuse(
  'not-now',
  'Another car is being brought in at this moment.',
  'Wait until it is in, then choose the file again.',
)
const tooLarge = refuse(
  'bad-input',
  'This file is larger than the file of any car may be.',
  'Check that it is the file that the other workshop took out.',
)
const nothingCame = refuse('bad-input', 'The file did not arrive whole.', 'Choose it again.')
const unknownFile = refuse(
  'unknown',
  'This file is not kept here any more.',
  'Choose it again; what was brought in already is not brought in twice.',
)
