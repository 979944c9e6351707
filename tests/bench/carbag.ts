import { createHash } from 'node:crypto'
import { mkdir, writeFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import { Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { photosFolder } from '../../db/data-paths.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { originalPath } from '../../db/photos/photo-files.ts'
import { attachmentIdSchema, type CarId } from '../../domain/ids.ts'
import { NOTHING_MORE } from '../../domain/report/file-choices.ts'
import { openCarFileDesk } from '../../electron/bag/car-file-desk.ts'
import { createPrinter } from '../../electron/print/printer.ts'
import { createTestPhoto } from '../support/images.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'
import { residentMb, watchMemory } from './memory.ts'

const PHOTOS = 1_500
const PHOTO_BYTES = 2_000_000

export interface CarBagFigures {
  readonly photos: number
  readonly archiveMb: number
  readonly seconds: number
  /** Resident memory of this process with the book's worker, before and the most while it was written. */
  readonly startMb: number
  readonly peakMb: number
  readonly heapMb: number
}

/** Hands out the file of a car with 1,500 different photos of 2 MB as the host does, its book written in the worker. */
export async function benchCarBag(): Promise<CarBagFigures> {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const { db, dataDir, now } = workshop
  const printer = createPrinter({ photosFolder: photosFolder(dataDir ?? '') })
  try {
    const carId = workshop.addCar()
    for (let index = 0; index < PHOTOS; index += 1) await attach(workshop, carId, index)
    const desk = await openCarFileDesk({
      db,
      writeBook: printer.writeBook,
      now: () => now,
      log: console.error,
    })
    const startMb = residentMb()
    const memory = watchMemory()
    const begun = performance.now()
    const watch = '00000000-0000-4000-8000-000000000000'
    const made = await desk.begin({ carId, as: 'zip', watch, choices: NOTHING_MORE })
    if (!made.ok) throw new Error(made.refusal.message)
    let bytes = 0
    let heap = 0
    const sink = new Writable({
      write(chunk: Buffer, _encoding, done) {
        bytes += chunk.byteLength
        heap = Math.max(heap, process.memoryUsage().heapUsed)
        done()
      },
    })
    await pipeline(made.value.stream, sink)
    const seconds = Math.round((performance.now() - begun) / 100) / 10
    const megabytes = (count: number) => Math.round(count / 1_000_000)
    return {
      photos: PHOTOS,
      archiveMb: megabytes(bytes),
      seconds,
      startMb,
      peakMb: memory.stop(),
      heapMb: megabytes(heap),
    }
  } finally {
    await printer.close()
    workshop.close()
  }
}

const pixels = createTestPhoto({ width: 1_200, height: 900, color: '#576' })

/** A picture with its own bytes behind its end, which no decoder reads: large and different without being made anew. */
async function attach(workshop: Workshop, carId: CarId, index: number): Promise<void> {
  const own = [Buffer.alloc(PHOTO_BYTES, index % 251), Buffer.from(String(index))]
  const bytes = Buffer.concat([await pixels, ...own])
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const place = originalPath(photosFolder(workshop.dataDir ?? ''), sha256)
  await mkdir(dirname(place), { recursive: true })
  await writeFile(place, bytes)
  const facts = { type: 'jpeg', width: 1_200, height: 900, orientation: 1, taken: null } as const
  recordPhoto(workshop.db, { sha256, byteCount: bytes.byteLength, facts }, workshop.now)
  const attachmentId = attachmentIdSchema.parse(`photo-bench-${index}`)
  const caption = `Photo ${index + 1} of a long job`
  const photo = { attachmentId, sha256, taken: null, caption, serves: [{ what: 'car' as const }] }
  workshop.run('attachPhoto', photo, { carId })
}
