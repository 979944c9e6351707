import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { NOTHING_MORE } from '../../domain/report/file-choices.ts'
import { readBag } from '../../electron/bag/read-bag.ts'
import { writeBagArchive } from '../../electron/bag/write-bag.ts'
import { openWholeWorkshop } from '../../electron/whole/whole-bag.ts'
import { entry, save } from '../support/bags.ts'
import { archiveOf } from '../support/came-file.ts'
import { carWithEveryKind } from '../support/car-file.ts'
import { copyOf, treeOf, valueOf } from '../support/copies.ts'
import { createPngHeader, createTestPhoto } from '../support/images.ts'

/** Files that are all right, to be made strange. */
export interface Fixtures {
  readonly images: readonly Uint8Array[]
  /** The file of a car, and what is in it. */
  readonly car: Bag
  readonly whole: Bag
  /** Files of a copy by their paths, and its stamp. */
  readonly copy: ReadonlyMap<string, Buffer>
  readonly stamp: string
}

export interface Bag {
  readonly archive: Uint8Array
  readonly files: ReadonlyMap<string, Buffer>
  readonly info: readonly (readonly [string, string])[]
}

let made: Promise<Fixtures> | null = null

/** Made once in a process, as every world asks for the same. */
export const fixtures = (): Promise<Fixtures> => (made ??= make())

async function make(): Promise<Fixtures> {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-fuzz-files-'))
  const { workshop, carId } = await carWithEveryKind()
  try {
    const car = await bagOf(await archiveOf(workshop, carId, NOTHING_MORE, folder))
    const whole = openWholeWorkshop(workshop.dataDir ?? '', workshop.now)
    const archive = await save(writeBagArchive(whole.bag, 'whole'), join(folder, 'whole.zip'))
    whole.close()
    const { stamp } = await copyOf({ dataDir: workshop.dataDir ?? '', folder })
    const copy = new Map([...treeOf(folder)].filter(([path]) => path.startsWith('panelwright-copies')))
    return { images: await createImages(), car, whole: await bagOf(archive), copy, stamp }
  } finally {
    workshop.close()
    rmSync(folder, { recursive: true })
  }
}

async function bagOf(path: string): Promise<Bag> {
  const bag = valueOf(await readBag(path, { mostFiles: 1_000, mostBytes: 1_000_000_000 }))
  const files = new Map<string, Buffer>()
  for (const name of bag.files.keys()) {
    const chunks: Buffer[] = []
    for await (const chunk of await bag.read(name)) chunks.push(chunk as Buffer)
    files.set(name, Buffer.concat(chunks))
  }
  await bag.close()
  const info = bag.info.filter(([label]) => label !== 'Payload-Oxum')
  return { archive: readFileSync(path), files, info }
}

/** The bag with other files and all of its digests right, as a forger would make it. */
export async function packed(
  { info }: Bag,
  files: ReadonlyMap<string, Uint8Array>,
): Promise<Uint8Array<ArrayBuffer>> {
  const entries = [...files].map(([name, bytes]) => entry(name, bytes))
  const chunks: Buffer[] = []
  for await (const chunk of writeBagArchive({ info, entries }, 'forged')) chunks.push(chunk as Buffer)
  return new Uint8Array(Buffer.concat(chunks))
}

async function createImages(): Promise<readonly Uint8Array[]> {
  const size = { width: 64, height: 48, color: '#357' }
  const formats = ['jpeg', 'png', 'webp'] as const
  const photos = formats.map((format) =>
    createTestPhoto({ ...size, format, taken: '2026:11:23 09:00:00', orientation: 6 }),
  )
  const heic = readFileSync(new URL('../fixtures/sample.heic', import.meta.url))
  return [...(await Promise.all(photos)), heic, createPngHeader(60_000, 60_000)]
}
