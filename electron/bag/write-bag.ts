import { randomUUID } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { lstat, mkdir, rename, rm } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { Readable, type Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { ZipFile } from 'yazl'
import { syncFolder } from '../../db/move-for-good.ts'
import { isMissing } from '../../db/system-error.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { BagProblem, refusalOf } from './bag-problem.ts'
import { foldedPath, isInside } from './bag-paths.ts'
import type { BagProgress, BagToWrite, WriteBagOptions } from './bag-shapes.ts'
import {
  DECLARATION,
  declarationText,
  INFO,
  infoText,
  MANIFEST,
  manifestLine,
  PAYLOAD,
  TAG_MANIFEST,
} from './bag-tags.ts'
import { hashThrough, type Hashed } from './hash-through.ts'

/** Writes a bag into a new folder `to`, made under a temporary name and moved when it is whole. Refuses what the disk refuses. */
export async function writeBagFolder(
  bag: BagToWrite,
  to: string,
  options: WriteBagOptions = {},
): Promise<Result<BagProgress>> {
  const temporary = join(dirname(to), `.${basename(to)}.${randomUUID()}.part`)
  try {
    if (await isThere(to))
      return refuse('already', `${to} is there already.`, 'Choose another folder, or move that one away.')
    await mkdir(dirname(to), { recursive: true })
    await mkdir(temporary)
    const written = await writeAll(bag, intoFolder(temporary, options.signal), options)
    await syncFolder(temporary)
    await rename(temporary, to)
    await syncFolder(dirname(to))
    return ok(written)
  } catch (error) {
    // What cannot be cleared away, on a disk that has just gone, must not hide why.
    await rm(temporary, { recursive: true, force: true }).catch(() => undefined)
    return { ok: false, refusal: refusalOf(error) }
  }
}

/**
 * The same as one archive, streamed. An error ends the stream with it: an archive that ends early has no directory at its end, so
 * that no program takes it for a whole one.
 *
 * @param name of the folder that the archive holds
 */
export function writeBagArchive(bag: BagToWrite, name: string, options: WriteBagOptions = {}): Readable {
  const zip = new ZipFile()
  const output = zip.outputStream as Readable
  const gone = new AbortController()
  const signal = AbortSignal.any([gone.signal, ...(options.signal ? [options.signal] : [])])
  output.once('close', () => gone.abort())
  zip.once('error', (error: Error) => output.destroy(error))
  writeAll(bag, intoArchive(zip, name, signal), { ...options, signal }).then(
    () => zip.end(),
    (error: unknown) => output.destroy(toBagProblem(error)),
  )
  return output
}

function toBagProblem(error: unknown): Error {
  try {
    return new BagProblem(refusalOf(error))
  } catch {
    return error instanceof Error ? error : new Error(String(error))
  }
}

/** Writes one file of the bag and answers its digest. */
type PutFile = (path: string, content: Readable) => Promise<Hashed>

/** The payload first, as it comes; then the texts that say what it was. */
async function writeAll(bag: BagToWrite, put: PutFile, options: WriteBagOptions): Promise<BagProgress> {
  const seen = new Set<string>()
  const lines: string[] = []
  let progress: BagProgress = { files: 0, bytes: 0 }
  for await (const { path, open } of bag.entries) {
    options.signal?.throwIfAborted()
    if (!isInside(path) || seen.has(foldedPath(path)))
      throw new Error(`'${path}' is no name for a file of a bag, or is there twice.`)
    seen.add(foldedPath(path))
    const { sha256, bytes } = await put(PAYLOAD + path, await open())
    lines.push(manifestLine(sha256, PAYLOAD + path))
    progress = { files: progress.files + 1, bytes: progress.bytes + bytes }
    options.onProgress?.(progress)
  }
  options.signal?.throwIfAborted()
  await writeTags(put, infoText(fullInfo(bag, progress)), lines.join(''))
  return progress
}

function fullInfo({ info }: BagToWrite, { files, bytes }: BagProgress): BagToWrite['info'] {
  const date = new Date().toISOString().slice(0, 10)
  return [...info, ['Bagging-Date', date], ['Payload-Oxum', `${bytes}.${files}`]]
}

async function writeTags(put: PutFile, info: string, manifest: string): Promise<void> {
  const texts = [
    [DECLARATION, declarationText],
    [INFO, info],
    [MANIFEST, manifest],
  ] as const
  const lines: string[] = []
  for (const [path, text] of texts) {
    const { sha256 } = await put(path, textStream(text))
    lines.push(manifestLine(sha256, path))
  }
  await put(TAG_MANIFEST, textStream(lines.join('')))
}

function textStream(text: string): Readable {
  return Readable.from([Buffer.from(text, 'utf8')])
}

function intoFolder(folder: string, signal: AbortSignal | undefined): PutFile {
  return async (path, content) => {
    const place = join(folder, ...path.split('/'))
    await mkdir(dirname(place), { recursive: true })
    // 'flush' syncs the file before it is closed, so that a full disk is known before the folder gets its name.
    return pour(content, [createWriteStream(place, { flags: 'wx', flush: true })], signal)
  }
}

/** Photos and PDFs are packed already; squeezing them again costs minutes and gains nothing. */
const PACKED = /\.(jpg|jpeg|png|heic|heif|webp|pdf|zip)$/i
const FILE_MODE = 0o100644

function intoArchive(zip: ZipFile, name: string, signal: AbortSignal): PutFile {
  return (path, content) =>
    pour(content, [], signal, (through) => {
      const options = { mode: FILE_MODE, compress: !PACKED.test(path) }
      zip.addReadStreamLazy(`${name}/${path}`, options, (give) => give(null, through))
    })
}

/** Ends when all is handed on, or with the first error of any part; the signal ends it at once. */
async function pour(
  content: Readable,
  into: readonly Writable[],
  signal: AbortSignal | undefined,
  take?: (through: Readable) => void,
): Promise<Hashed> {
  let hashed: Hashed | null = null
  const through = hashThrough((result) => {
    hashed = result
  })
  take?.(through)
  await pipeline([content, through, ...into], signal ? { signal } : {})
  if (hashed === null) throw new Error('A file of the bag ended without its digest.')
  return hashed
}

async function isThere(path: string): Promise<boolean> {
  try {
    await lstat(path)
    return true
  } catch (error) {
    if (isMissing(error)) return false
    throw error
  }
}
