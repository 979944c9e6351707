import { createReadStream, readFileSync, writeFileSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { photosFolder } from '../../db/data-paths.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore, type PhotoStore } from '../../db/photos/photo-store.ts'
import { commandIdSchema, deviceIdSchema, type CarId } from '../../domain/ids.ts'
import { ok, type Refusal, type Result } from '../../domain/refusal.ts'
import type { CarBook } from '../../domain/report/car-book-shapes.ts'
import type { FileChoices } from '../../domain/report/file-choices.ts'
import type { BroughtInCar, CameFile } from '../../electron/api/bring-in-desk.ts'
import { carBag } from '../../electron/bag/car-bag.ts'
import { readBag } from '../../electron/bag/read-bag.ts'
import { writeBagArchive } from '../../electron/bag/write-bag.ts'
import { openBringInDesk, type ClosableDesk } from '../../electron/bring-in/bring-in-desk.ts'
import { entry, save } from './bags.ts'
import { createWorkshop, desk as deskDevice, manager, type Workshop } from './workshop.ts'

/** The file of a car as one archive, with a book that nobody reads. */
export async function archiveOf(
  { db, now }: Workshop,
  carId: CarId,
  choices: FileChoices,
  folder: string,
): Promise<string> {
  const makeBook = async (_book: CarBook, to: string) => {
    await writeFile(to, '%PDF a book')
    return ok(null)
  }
  const made = sure(await carBag(db, carId, { choices, now, makeBook, scratch: folder }))
  return save(writeBagArchive(made.bag, made.name), join(folder, `${Object.values(choices).join('-')}.zip`))
}

/** The same bag with one of its files changed and all of its digests right again, as a forger would make it. */
export async function forged(
  archive: string,
  folder: string,
  path: string,
  change: (text: string) => string,
): Promise<string> {
  const bag = sure(await readBag(archive, { mostFiles: 1_000, mostBytes: 1_000_000_000 }))
  const texts = new Map<string, Buffer>()
  for (const each of bag.files.keys()) {
    const chunks: Buffer[] = []
    for await (const chunk of await bag.read(each)) chunks.push(chunk as Buffer)
    const bytes = Buffer.concat(chunks)
    texts.set(each, each === path ? Buffer.from(change(bytes.toString('utf8'))) : bytes)
  }
  await bag.close()
  const entries = [...texts].map(([name, bytes]) => entry(name, bytes))
  const info = bag.info.filter(([label]) => label !== 'Payload-Oxum')
  return save(writeBagArchive({ info, entries }, 'forged'), join(folder, 'forged.zip'))
}

/** A journal without one of its lines, counted from 0. */
export const withoutLine = (text: string, line: number): string =>
  text
    .split('\n')
    .filter((_each, index) => index !== line)
    .join('\n')

/** An archive with one bit turned over within a photo: what an archive says beside its files may differ harmlessly. */
export function damaged(archive: string, folder: string): string {
  const bytes = readFileSync(archive)
  const photo = bytes.indexOf(START_OF_JPEG)
  if (photo === -1) throw new Error('There is no photo in the archive.')
  bytes[photo + 20]! ^= 1
  const path = join(folder, 'damaged.zip')
  writeFileSync(path, bytes)
  return path
}

const START_OF_JPEG = Uint8Array.of(0xff, 0xd8, 0xff)

/** A workshop that cars may come to, with its desk. */
export interface Receiver {
  readonly workshop: Workshop
  readonly photos: PhotoStore
  readonly desk: ClosableDesk
  readonly receive: (archive: string) => Promise<Result<CameFile>>
  readonly bringIn: (
    fileId: string,
    more?: { readonly commandId?: string; readonly shellNumber?: string },
  ) => Promise<Result<BroughtInCar>>
  /** Receives and brings in; must succeed. */
  readonly take: (archive: string) => Promise<CarId>
  readonly close: () => Promise<void>
}

export async function createReceiver(): Promise<Receiver> {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const opened = await openPhotoStore(photosFolder(workshop.dataDir ?? ''), { inspect: inspectPhoto })
  if (!opened.ok) throw new Error(opened.problem.message)
  const photos = opened.value
  const desk = await openBringInDesk({
    db: workshop.db,
    photos,
    makeSizes: async () => ({ ok: true, value: true }),
    now: () => workshop.now,
    log: (line) => {
      throw new Error(line)
    },
  })
  const receive: Receiver['receive'] = (archive) => desk.receive(createReadStream(archive))
  const bringIn: Receiver['bringIn'] = (fileId, { commandId = 'bring-in-1', shellNumber = null } = {}) =>
    desk.bringIn({
      fileId,
      commandId: commandIdSchema.parse(commandId),
      shellNumber,
      by: manager,
      device: deviceIdSchema.parse(deskDevice),
    })
  return {
    workshop,
    photos,
    desk,
    receive,
    bringIn,
    take: async (archive) => sure(await bringIn(sure(await receive(archive)).fileId)).carId,
    close: async () => {
      await desk.close()
      workshop.close()
    },
  }
}

export function sure<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(`${result.refusal.message} ${result.refusal.next}`)
  return result.value
}

export function refusalOf(result: Result<unknown>): Refusal {
  if (result.ok) throw new Error('It was not refused.')
  return result.refusal
}
