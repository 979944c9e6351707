import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { parseArgs } from 'node:util'
import sharp from 'sharp'
import { PHOTO_SIZE_NAMES, PHOTO_SIZES, type PhotoSize } from '../../db/photos/photo-size.ts'
import { createWorkshop } from '../support/workshop.ts'
import { drawPicture, MEGAPIXELS, withComment } from './camera-photos.ts'
import { startMeasuredHost, type MeasuredHost } from './measured-host.ts'
import { quantile, rounded } from './timing.ts'

export interface PhotosFigures {
  readonly photos: number
  readonly megapixels: number
  /** Throughput of the host by that of sharp alone: the median of the blocks. */
  readonly ratioToSharp: number
  readonly ratiosOfBlocks: readonly number[]
  /** Of the host's event loop while photos came in. */
  readonly longestStallMs: number
  readonly hostPhotosPerMinute: number
  readonly sharpPhotosPerMinute: number
  readonly rssPeakMb: number
  /** Of the machine over the last minute: what others did on it stands in the figures. */
  readonly loadBefore: number
  readonly loadAfter: number
}

const PICTURES = 4
const BLOCK = 10
const AT_ONCE = 2

/**
 * Photos of 24 megapixels through the real host, from the first byte sent until their sizes can be read, beside sharp alone
 * doing the same sizes of the same files: blocks of ten, one after the other, so that both meet the same machine. Sharp
 * alone reads and decodes a file for each size, one photo after the other, with its own usual number of threads. Options:
 * --photos N.
 */
export async function benchPhotos(args: readonly string[]): Promise<PhotosFigures> {
  const { values } = parseArgs({ args: [...args], options: { photos: { type: 'string', default: '200' } } })
  const photos = Number(values.photos)
  const loadBefore = loadavg()[0] ?? 0
  const pictures = await keptPictures()
  const workshop = createWorkshop({ keptIn: 'folder' })
  const dataDir = workshop.dataDir ?? ''
  workshop.db.close()
  const host = await startMeasuredHost(dataDir)
  try {
    // The decoders, the worker and the compiler warm up with one photo each.
    await takeIn(host, [withComment(pictures[0] ?? Buffer.alloc(0))])
    await alone(dataDir, [withComment(pictures[0] ?? Buffer.alloc(0))])
    await host.loopDelay()
    const blocks: { readonly host: number; readonly sharp: number }[] = []
    let longestStallMs = 0
    for (let done = 0; done < photos; done += BLOCK) {
      const block = Array.from({ length: Math.min(BLOCK, photos - done) }, (_, at) =>
        withComment(pictures[(done + at) % PICTURES] ?? Buffer.alloc(0)),
      )
      await host.loopDelay()
      const hostMs = await timeOf(() => takeIn(host, block))
      longestStallMs = Math.max(longestStallMs, (await host.loopDelay()).max)
      blocks.push({ host: hostMs, sharp: await timeOf(() => alone(dataDir, block)) })
    }
    const sum = (of: 'host' | 'sharp') => blocks.reduce((ms, block) => ms + block[of], 0)
    const ratios = blocks.map((block) => rounded(block.sharp / block.host))
    return {
      photos,
      megapixels: MEGAPIXELS,
      ratioToSharp: quantile(ratios, 0.5),
      ratiosOfBlocks: ratios,
      longestStallMs,
      hostPhotosPerMinute: rounded((photos * 60_000) / sum('host'), 1),
      sharpPhotosPerMinute: rounded((photos * 60_000) / sum('sharp'), 1),
      rssPeakMb: host.rssPeakMb(),
      loadBefore,
      loadAfter: loadavg()[0] ?? 0,
    }
  } finally {
    await host.end()
    rmSync(dataDir, { recursive: true, force: true })
  }
}

async function timeOf(work: () => Promise<void>): Promise<number> {
  const begun = performance.now()
  await work()
  return performance.now() - begun
}

/** A photo is in when the largest of its sizes can be read. */
async function takeIn(
  { origin, cookie }: MeasuredHost,
  photos: readonly Uint8Array<ArrayBuffer>[],
): Promise<void> {
  const headers = { cookie, origin }
  let next = 0
  const send = async (): Promise<void> => {
    for (;;) {
      const photo = photos[next]
      next += 1
      if (photo === undefined) return
      const answer = await fetch(`${origin}/photos`, { method: 'PUT', headers, body: photo })
      if (!answer.ok) throw new Error(`A photo was refused (${answer.status}): ${await answer.text()}`)
      await answer.body?.cancel()
    }
  }
  await Promise.all(Array.from({ length: AT_ONCE }, send))
  for (const photo of photos) {
    const sha256 = createHash('sha256').update(photo).digest('hex')
    const size = await fetch(`${origin}/photos/${sha256}/screen`, { headers })
    if (!size.ok) throw new Error(`The sizes of a photo were not made (${size.status}).`)
    await size.arrayBuffer()
  }
}

/** The same sizes of the same files. */
async function alone(dataDir: string, photos: readonly Uint8Array[]): Promise<void> {
  const folder = join(dataDir, 'sharp-alone')
  mkdirSync(folder, { recursive: true })
  for (const [at, photo] of photos.entries()) {
    const path = join(folder, `photo-${at}.jpg`)
    await writeFile(path, photo)
    for (const size of PHOTO_SIZE_NAMES)
      await writeFile(join(folder, `${at}-${size}`), await bareSize(path, size))
  }
}

function bareSize(path: string, size: PhotoSize): Promise<Buffer> {
  const { longestSide, format } = PHOTO_SIZES[size]
  const resized = sharp(path).autoOrient().resize(longestSide, longestSide, { fit: 'inside' })
  return (
    format === 'webp' ? resized.webp({ quality: 78 }) : resized.jpeg({ quality: 78, mozjpeg: true })
  ).toBuffer()
}

/** A few pictures, drawn once and kept in the folder for temporary files. */
async function keptPictures(): Promise<readonly Buffer[]> {
  const folder = join(tmpdir(), 'panelwright-pictures-2')
  mkdirSync(folder, { recursive: true })
  const pictures: Buffer[] = []
  for (let kind = 0; kind < PICTURES; kind += 1) {
    const path = join(folder, `${kind}.jpg`)
    if (!existsSync(path)) {
      writeFileSync(
        `${path}.${process.pid}`,
        await drawPicture(kind * 80, { share: 1 / 2, sigma: 18 + 4 * kind, quality: 88 }),
      )
      renameSync(`${path}.${process.pid}`, path)
    }
    pictures.push(readFileSync(path))
  }
  return pictures
}
