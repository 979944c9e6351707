import { mkdtemp, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import { sharp } from '../../db/photos/sharp.ts'
import { makeSizes } from '../../db/photos/sizes.ts'
import { GATES } from '../../domain/gates.ts'
import { attachmentIdSchema } from '../../domain/ids.ts'
import { carBook } from '../../domain/report/car-book.ts'
import { bookPhotos, type CarBook } from '../../domain/report/car-book-shapes.ts'
import { NOTHING_MORE } from '../../domain/report/file-choices.ts'
import { writeBook } from '../../electron/print/write-book.ts'
import { buildCar, repairId } from '../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../support/workshop-builder.ts'
import { residentMb, watchMemory } from './memory.ts'

const PHOTOS = 1_500
const FILES = 36
const REPAIRS = 40

export interface CarFileFigures {
  readonly photos: number
  readonly pages: number
  readonly seconds: number
  /** Resident memory of this process before the book, and the most while it was written. */
  readonly startMb: number
  readonly peakMb: number
  readonly fileMb: number
}

/** Writes the book of a car with 1,500 photos, told from 36 different files in a photo folder as the host keeps it. */
export async function benchCarFile(): Promise<CarFileFigures> {
  const folder = await mkdtemp(join(tmpdir(), 'panelwright-carfile-'))
  try {
    const photosFolder = join(folder, 'photos')
    const book = largeBook(await storePhotos(photosFolder))
    const startMb = residentMb()
    const memory = watchMemory()
    const begun = performance.now()
    const to = join(folder, 'book.pdf')
    const written = await writeBook(book, to, photosFolder)
    const seconds = Math.round((performance.now() - begun) / 100) / 10
    const peakMb = memory.stop()
    if (!written.ok) throw new Error(written.refusal.message)
    const { size } = await stat(to)
    const { photos, pages } = written.value
    return { photos, pages, seconds, startMb, peakMb, fileMb: Math.round(size / 1_000_000) }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

async function storePhotos(folder: string): Promise<readonly string[]> {
  const store = await openPhotoStore(folder, { inspect: inspectPhoto })
  if (!store.ok) throw new Error(store.problem.message)
  const digests: string[] = []
  for (let index = 0; index < FILES; index += 1) {
    const added = await store.value.add(await detailedPhoto(index))
    if (!added.ok) throw new Error(added.problem.message)
    await makeSizes(folder, added.value.sha256)
    digests.push(added.value.sha256)
  }
  return digests
}

/** As many details as a photo has: coarse noise makes JPEGs of their usual size. Every fourth is upright. */
async function detailedPhoto(index: number): Promise<Buffer> {
  const [width, height] = index % 4 === 0 ? [1200, 1600] : [1600, 1200]
  const noise = { type: 'gaussian', mean: 90 + 2 * index, sigma: 40 } as const
  const grain = { width: width / 4, height: height / 4, channels: 3, background: '#777', noise } as const
  const coarse = await sharp({ create: grain }).png().toBuffer()
  return sharp(coarse).resize(width, height).jpeg({ quality: 90 }).toBuffer()
}

function largeBook(digests: readonly string[]): CarBook {
  const car = buildCar()
  const names = Array.from({ length: REPAIRS }, (_, index) => `Repair ${index + 1}`)
  for (const name of names) car.repair(name)
  for (let index = 0; index < PHOTOS; index += 1)
    car.add('photoAttached', {
      attachmentId: attachmentIdSchema.parse(`photo-bench-${index}`),
      sha256: digests[index % digests.length] ?? '',
      taken: null,
      caption: `Photo ${index + 1} of a long job, as a technician writes it`,
      serves: [
        {
          what: 'gate',
          repairId: repairId(names[index % REPAIRS] ?? ''),
          gate: GATES[Math.floor(index / REPAIRS) % GATES.length] ?? 'opened',
          shows: 'work',
          layerId: null,
        },
      ],
    })
  const book = carBook({
    facts: car.facts(),
    head: '0'.repeat(64),
    workshop: buildWorkshop(),
    nameOf,
    contactOf: () => null,
    choices: NOTHING_MORE,
    now: Date.parse('2026-12-28T09:00:00Z'),
  })
  if (book === null || bookPhotos(book).length !== PHOTOS)
    throw new Error('The book does not have its photos.')
  return book
}
