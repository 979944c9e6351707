import { createHash, randomUUID } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { mkdir, rename, rm } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import type { Moment } from '../domain/car.ts'
import { plural } from '../domain/text/words.ts'
import { checkDerived } from './check-derived.ts'
import type { CheckFinding, Mend } from './check-finding.ts'
import { photosFolder } from './data-paths.ts'
import { tryToStore } from './database-problem.ts'
import type { Database } from './database.ts'
import { keptPlace, type KeptFile } from './kept-file.ts'
import type { PhotoResult } from './photos/photo-problem.ts'
import { openPhotoReader } from './photos/photo-store.ts'
import { moveForGood, syncFolder } from './move-for-good.ts'
import { rebuildDerived } from './rebuild-derived.ts'
import { isMissing, isSystemError } from './system-error.ts'
import { refusalWords } from '../domain/refusal.ts'

export interface MendTools {
  /** Of the host, or held by a command while no host may start. */
  readonly db: Database
  readonly dataDir: string
  /** Makes all sizes of a photo anew. */
  readonly makeSizes: (sha256: string) => Promise<PhotoResult<true>>
  /** Copies to take damaged files from; null where none are named. */
  readonly copies: CopiedFiles | null
  /** Names what is set aside, epoch milliseconds. */
  readonly now: Moment
  readonly onProgress?: (done: number) => void
}

/** Reads files out of copies of the workshop, by their digest. */
export interface CopiedFiles {
  /** The bytes as they lie in one copy after the other; they are verified by whoever takes them. */
  readonly open: (sha256: string) => AsyncIterable<AsyncIterable<Uint8Array>>
}

/** What became of a finding; the words say what was done, or why it could not be. */
export interface Mended {
  readonly finding: CheckFinding
  readonly isMended: boolean
  readonly words: string
}

/**
 * Puts right what can be made again or taken from a copy. The journal is never touched, nothing damaged is deleted, and what
 * cannot be mended stays as it is.
 */
export async function mendFindings(
  findings: readonly CheckFinding[],
  tools: MendTools,
): Promise<readonly Mended[]> {
  const results: Mended[] = []
  let tables: Done | null = null
  for (const finding of findings) {
    const { mend } = finding
    if (mend === null) continue
    tools.onProgress?.(results.length)
    const done =
      mend.by === 'making the tables anew' ? (tables ??= makeTables(tools)) : await attempt(mend, tools)
    results.push({ finding, ...done })
  }
  return results
}

type Done = Pick<Mended, 'isMended' | 'words'>

const done = (words: string): Done => ({ isMended: true, words })
const left = (words: string): Done => ({ isMended: false, words })

/** Once for all findings of the tables. */
function makeTables({ db }: MendTools): Done {
  const made = tryToStore(() => rebuildDerived(db))
  if (!made.ok) return left(refusalWords(made.refusal))
  return checkDerived(db.reader).length === 0
    ? done('The tables were made anew from the journal.')
    : left('The tables were made anew and still differ: the program has a defect. Report it.')
}

async function attempt(
  mend: Exclude<Mend, { readonly by: 'making the tables anew' }>,
  tools: MendTools,
): Promise<Done> {
  try {
    switch (mend.by) {
      case 'making sizes':
        return await makeAllSizes(mend.photos, tools)
      case 'removing':
        await rm(join(tools.dataDir, mend.path), { force: true })
        return done('It was removed.')
      case 'taking from a copy':
        return await takeFromCopy(mend.file, tools)
    }
  } catch (error) {
    if (!isSystemError(error)) throw error
    return left(`The disk refused it (${error.code}). Check that it is attached and has room.`)
  }
}

/** Never from an original that is not what was stored: its sizes may be the last that is left of it. */
async function makeAllSizes(photos: readonly string[], { dataDir, makeSizes }: MendTools): Promise<Done> {
  const reader = openPhotoReader(photosFolder(dataDir))
  let failed = 0
  for (const sha256 of photos) {
    const isWhole = (await reader.verify(sha256)).ok
    if (!isWhole || !(await makeSizes(sha256)).ok) failed += 1
  }
  return failed === 0
    ? done('The sizes were made anew.')
    : left(`The sizes of ${plural('photo', failed)} could not be made. Run the check again.`)
}

async function takeFromCopy(file: KeptFile, { dataDir, copies, now }: MendTools): Promise<Done> {
  if (copies === null) return left('Name the folder of the copies, so that it can be taken from there.')
  const place = keptPlace(dataDir, file)
  await mkdir(place.making, { recursive: true })
  for await (const bytes of copies.open(file.sha256)) {
    const temporary = join(place.making, `${randomUUID()}.part`)
    try {
      if (!(await receive(bytes, temporary, file.sha256))) continue
      await setAside(place.path, place.setAside, now)
      await moveForGood(temporary, place.path, place.top)
      return done('It was taken from a copy and is what was recorded.')
    } finally {
      await rm(temporary, { force: true })
    }
  }
  return left('No copy there has it whole. Look for an older copy, and keep this folder as it is.')
}

/** @returns whether these are the bytes that the digest names */
async function receive(bytes: AsyncIterable<Uint8Array>, path: string, sha256: string): Promise<boolean> {
  const hash = createHash('sha256')
  let isRead = true
  const hashed = async function* () {
    try {
      for await (const chunk of bytes) {
        hash.update(chunk)
        yield chunk
      }
    } catch {
      // A copy that cannot be read, or unsealed, to its end is not whole either.
      isRead = false
    }
  }
  await pipeline(hashed, createWriteStream(path, { flags: 'wx', flush: true }))
  return isRead && hash.digest('hex') === sha256
}

/** A damaged file may still hold something that somebody can make out. */
async function setAside(path: string, folder: string, now: Moment): Promise<void> {
  await mkdir(folder, { recursive: true })
  const stamp = new Date(now).toISOString().replaceAll(/[:.]/g, '')
  try {
    await rename(path, join(folder, `${basename(path)}-${stamp}`))
    await syncFolder(folder)
  } catch (error) {
    if (!isMissing(error)) throw error
  }
}
