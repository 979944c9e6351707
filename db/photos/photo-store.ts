import { createHash, randomUUID } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, open, readdir, rm, stat, unlink, utimes, type FileHandle } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { Readable } from 'node:stream'
import { moveForGood, syncFolder, syncFolders } from '../move-for-good.ts'
import { isMissing, isSystemError } from '../system-error.ts'
import { toWeb } from '../to-web.ts'
import { createTurns } from '../turns.ts'
import type { PhotoFacts } from './inspect-photo.ts'
import { incomingFolder, isSha256, originalPath, originalsFolder, sizePath } from './photo-files.ts'
import {
  MAX_PHOTO_BYTES,
  changed,
  diskProblem,
  empty,
  missing,
  missingSize,
  photoFailure,
  tooLarge,
  uploadBroken,
  type PhotoProblem,
  type PhotoResult,
} from './photo-problem.ts'
import { PHOTO_SIZE_NAMES, type PhotoSize } from './photo-size.ts'

export interface StoredPhoto {
  /** Lower-case hexadecimal SHA-256 of the photo's bytes; its name for ever. */
  readonly sha256: string
  readonly byteCount: number
  readonly facts: PhotoFacts
}

export interface PhotoBytes {
  readonly byteCount: number
  /** Read it to its end or cancel it: it holds the file open. */
  readonly stream: ReadableStream<Uint8Array>
}

/** A web ReadableStream is one of these, and so is any Node stream. */
export type PhotoSource = Uint8Array | AsyncIterable<Uint8Array>

/** Reads a photo folder; beside a running host this is all that another process may use. */
export interface PhotoReader {
  readonly folder: string
  /** @returns 'missing' when it is not there */
  readOriginal(sha256: string): Promise<PhotoResult<PhotoBytes>>
  /** @returns 'missing' when that size has not been made yet: `makeSizes` makes it */
  readSize(sha256: string, size: PhotoSize): Promise<PhotoResult<PhotoBytes>>
  /** Hashes the original again. @returns 'missing', or 'changed' when the bytes are no longer those stored */
  verify(sha256: string): Promise<PhotoResult<{ readonly byteCount: number }>>
  /** The digests of all originals, in order. */
  list(): Promise<PhotoResult<readonly string[]>>
}

export interface PhotoStore extends PhotoReader {
  /**
   * Takes a photo and keeps its bytes as they came. Once this has answered with success the photo survives a kill and a
   * power cut; until then nothing of it is left behind. The same bytes again give the same answer.
   */
  add(source: PhotoSource): Promise<PhotoResult<StoredPhoto>>
  /**
   * Removes an original and its sizes if `mayRemove` agrees. It is asked at the last moment, while no photo is being
   * put in place, with the time at which these bytes were last sent, so that a photo that was just answered and is not
   * referred to yet can be spared.
   *
   * @returns whether it was removed
   */
  remove(sha256: string, mayRemove: (lastSent: Date) => boolean): Promise<PhotoResult<boolean>>
}

export interface PhotoStoreOptions {
  /** The check of a received file: `inspectPhoto`, or the image pool's, which does the same in a worker. */
  readonly inspect: (path: string) => Promise<PhotoResult<PhotoFacts>>
  /** Makes the file that a photo is received into. Tests put a full disk here. */
  readonly createFile?: (path: string) => Promise<FileHandle>
}

/**
 * Opens the photo folder for the host, its only writer; makes it if needed and clears what a killed host was receiving.
 * Call it only where no other host can have the same folder open: it would clear what that one is receiving.
 *
 * folder/incoming/   files being received or made, never read by anyone else
 * folder/originals/  ab/cd/<sha256>, never written to again
 * folder/derived/    sizes for screens and reports, made again at any time
 */
export async function openPhotoStore(
  folder: string,
  { inspect, createFile = createNewFile }: PhotoStoreOptions,
): Promise<PhotoResult<PhotoStore>> {
  try {
    await rm(incomingFolder(folder), { recursive: true, force: true })
    for (const path of [incomingFolder(folder), originalsFolder(folder)])
      await mkdir(path, { recursive: true })
    await syncFolder(folder)
  } catch (error) {
    return photoFailure(diskProblem(error))
  }
  const oneAtATime = createTurns()

  async function add(source: PhotoSource): Promise<PhotoResult<StoredPhoto>> {
    const temporary = join(incomingFolder(folder), `${randomUUID()}.part`)
    try {
      const received = await receive(source, () => createFile(temporary))
      if (!received.ok) return received
      const facts = await inspect(temporary)
      if (!facts.ok) return facts
      const { sha256, byteCount } = received.value
      await oneAtATime(() => keep(folder, temporary, sha256))
      return { ok: true, value: { sha256, byteCount, facts: facts.value } }
    } catch (error) {
      return photoFailure(diskProblem(error))
    } finally {
      await discard(temporary)
    }
  }

  async function remove(
    sha256: string,
    mayRemove: (lastSent: Date) => boolean,
  ): Promise<PhotoResult<boolean>> {
    if (!isSha256(sha256)) return photoFailure(missing(sha256))
    try {
      return await oneAtATime(async () => {
        const { mtime } = await stat(originalPath(folder, sha256))
        if (!mayRemove(mtime)) return { ok: true, value: false }
        await removeFiles(folder, sha256)
        return { ok: true, value: true }
      })
    } catch (error) {
      return photoFailure(isMissing(error) ? missing(sha256) : diskProblem(error))
    }
  }

  return { ok: true, value: { ...openPhotoReader(folder), add, remove } }
}

/** Reads an existing photo folder and leaves everything in it as it is. */
export function openPhotoReader(folder: string): PhotoReader {
  return {
    folder,
    readOriginal: (sha256) => readBytes(sha256, () => originalPath(folder, sha256), missing(sha256)),
    readSize: (sha256, size) => readBytes(sha256, () => sizePath(folder, sha256, size), missingSize),
    verify: (sha256) => verifyOriginal(folder, sha256),
    list: () => listOriginals(folder),
  }
}

interface Received {
  readonly sha256: string
  readonly byteCount: number
}

/** Writes the source to a new file as it comes, hashes it on the way and syncs it. */
async function receive(
  source: PhotoSource,
  createFile: () => Promise<FileHandle>,
): Promise<PhotoResult<Received>> {
  const file = await createFile()
  try {
    const hash = createHash('sha256')
    let byteCount = 0
    const problem = await pour(source, async (chunk) => {
      byteCount += chunk.byteLength
      if (byteCount > MAX_PHOTO_BYTES) return tooLarge
      hash.update(chunk)
      return writeChunk(file, chunk)
    })
    if (problem !== null) return photoFailure(problem)
    if (byteCount === 0) return photoFailure(empty)
    await file.sync()
    return { ok: true, value: { sha256: hash.digest('hex'), byteCount } }
  } finally {
    await file.close()
  }
}

/** Hands on chunk by chunk until `take` names a problem. A source that fails is a connection that broke off. */
async function pour(
  source: PhotoSource,
  take: (chunk: Uint8Array) => Promise<PhotoProblem | null>,
): Promise<PhotoProblem | null> {
  if (source instanceof Uint8Array) return take(source)
  try {
    for await (const chunk of source) {
      const problem = await take(chunk)
      if (problem !== null) return problem
    }
    return null
  } catch {
    return uploadBroken
  }
}

async function writeChunk(file: FileHandle, chunk: Uint8Array): Promise<PhotoProblem | null> {
  try {
    await file.writeFile(chunk)
    return null
  } catch (error) {
    return diskProblem(error)
  }
}

/**
 * Puts a received file in place. The same bytes sent again leave an intact original as it is, but for its time, and mend
 * a damaged one.
 */
async function keep(folder: string, temporary: string, sha256: string): Promise<void> {
  const place = originalPath(folder, sha256)
  const earlier = await verifyOriginal(folder, sha256)
  if (!earlier.ok) return moveForGood(temporary, place, originalsFolder(folder))
  const now = new Date()
  await utimes(place, now, now)
  await syncFolders(dirname(place), originalsFolder(folder))
}

async function removeFiles(folder: string, sha256: string): Promise<void> {
  for (const size of PHOTO_SIZE_NAMES) await rm(sizePath(folder, sha256, size), { force: true })
  const place = originalPath(folder, sha256)
  await unlink(place)
  await syncFolder(dirname(place))
}

async function readBytes(
  sha256: string,
  pathOf: () => string,
  absent: PhotoProblem,
): Promise<PhotoResult<PhotoBytes>> {
  if (!isSha256(sha256)) return photoFailure(absent)
  try {
    const path = pathOf()
    const { size } = await stat(path)
    return { ok: true, value: { byteCount: size, stream: toWeb(Readable.from(bytesOf(path))) } }
  } catch (error) {
    return photoFailure(isMissing(error) ? absent : diskProblem(error))
  }
}

/** Opens the file with the first read: an answer without a body, as to HEAD, must leave none open. */
async function* bytesOf(path: string): AsyncGenerator<Buffer> {
  yield* createReadStream(path) as AsyncIterable<Buffer>
}

async function verifyOriginal(
  folder: string,
  sha256: string,
): Promise<PhotoResult<{ readonly byteCount: number }>> {
  if (!isSha256(sha256)) return photoFailure(missing(sha256))
  const hash = createHash('sha256')
  let byteCount = 0
  try {
    for await (const chunk of createReadStream(originalPath(folder, sha256)) as AsyncIterable<Buffer>) {
      hash.update(chunk)
      byteCount += chunk.byteLength
    }
  } catch (error) {
    return photoFailure(isMissing(error) ? missing(sha256) : diskProblem(error))
  }
  return hash.digest('hex') === sha256 ? { ok: true, value: { byteCount } } : photoFailure(changed(sha256))
}

async function listOriginals(folder: string): Promise<PhotoResult<readonly string[]>> {
  try {
    const entries = await readdir(originalsFolder(folder), { recursive: true, withFileTypes: true })
    const names = entries.filter((entry) => entry.isFile() && isSha256(entry.name)).map((entry) => entry.name)
    return { ok: true, value: names.toSorted() }
  } catch (error) {
    return photoFailure(diskProblem(error))
  }
}

/** What cannot be cleared away now, on a disk that has just gone, is cleared at the next opening. */
async function discard(temporary: string): Promise<void> {
  try {
    await rm(temporary, { force: true })
  } catch (error) {
    if (!isSystemError(error)) throw error
  }
}

function createNewFile(path: string): Promise<FileHandle> {
  return open(path, 'wx')
}
