import { createHash } from 'node:crypto'
import { mkdir, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { isSqliteError } from '../../db/database-problem.ts'
import { claimFolder } from '../../db/host-lock.ts'
import { syncFolder } from '../../db/move-for-good.ts'
import { stampOf } from '../../db/stamp-of.ts'
import {
  COPY_FORMAT,
  COPY_VERSION,
  type CopyContent,
  type CopyHead,
} from '../../domain/copies/copy-shapes.ts'
import { ok, type Result } from '../../domain/refusal.ts'
import { plural } from '../../domain/text/words.ts'
import { type CopiedFiles, copyFiles } from './copy-files.ts'
import { COPY_FILES, copiesIn, copyFolder, type CopyStore, storeLock } from './copy-paths.ts'
import { copyRefusal } from './copy-problem.ts'
import { bagProblem } from '../bag/bag-problem.ts'
import { sizeOnDisk, writeWrapped } from './wrapped-file.ts'
import { addToErasureList } from './erasure-list.ts'
import { openTarget, requireRoom, SAME_DISK } from './target.ts'
import { thinOut } from './thin-out.ts'
import { BUSY, copyToWork, withWorkingFolder, type WorkingDatabase } from './working-database.ts'
import type { Wrapping } from './wrapping.ts'

export interface CopyJob {
  readonly dataDir: string
  /** Where copies go; it must be there. */
  readonly folder: string
  readonly wrapping: Wrapping
  /** The host's clock, epoch milliseconds. */
  readonly now: number
  /** Copies were made into this folder before. */
  readonly isKnown: boolean
}

export interface CopyOptions {
  readonly onProgress?: (progress: CopyProgress) => void
  /** When aborted, nothing of the copy is left but files that the next one uses. */
  readonly signal?: AbortSignal
}

export interface CopyProgress {
  readonly words: string
  /** Files; 0 of 0 where they are not counted. */
  readonly done: number
  readonly of: number
}

/** A copy that is whole in its place, and verified. */
export interface CopyMade {
  readonly stamp: string
  readonly store: CopyStore
  readonly head: CopyHead
  readonly files: Omit<CopiedFiles, 'names'>
  /** What people should know, in words. */
  readonly warnings: readonly string[]
  /** Older ones that went. */
  readonly dropped: readonly string[]
}

const never = new AbortController().signal

/**
 * Makes a verified copy of a workshop: its database as of one moment, and every photo, report and journal that it names. Files
 * that an earlier copy has are not written again. The copy gets its name when it is whole; until then, and where anything goes
 * wrong, earlier ones are as they were. A host may be at work in the data folder.
 */
export async function makeCopy(job: CopyJob, options: CopyOptions = {}): Promise<Result<CopyMade>> {
  try {
    return ok(await withWorkingFolder(job.dataDir, (work) => copyFrom(work, job, options)))
  } catch (error) {
    return { ok: false, refusal: copyRefusal(error, job.dataDir) }
  }
}

async function copyFrom(work: string, job: CopyJob, options: CopyOptions): Promise<CopyMade> {
  const { onProgress = () => {}, signal = never } = options
  onProgress({ words: 'Copying the records.', done: 0, of: 0 })
  const database = await copyToWork(job.dataDir, work, signal)
  const target = await openTarget(job.dataDir, job.folder, { ...job, firstHash: database.firstHash })
  const giveFree = claimStore(target.store, job.folder)
  try {
    const files = await copyFiles(database.files, {
      ...job,
      store: target.store,
      signal,
      onFile: (done) => onProgress({ words: 'Copying photos and reports.', done, of: database.files.length }),
    })
    onProgress({ words: 'Verifying the copy.', done: 0, of: 0 })
    await addToErasureList(target.store, database.erasures)
    const made = await putInPlace(target.store, database, files, { ...job, signal })
    const { dropped, problem } = await thinOut(target.store, job.now, database.zone)
    const { names: _names, ...told } = files
    return {
      ...made,
      store: target.store,
      files: told,
      warnings: [...(target.isSameDisk ? [SAME_DISK] : []), ...lostWords(files.lost), ...problem],
      dropped,
    }
  } finally {
    giveFree()
  }
}

/** A failure here is of the disk with the copies, not of the workshop's. */
function claimStore(store: CopyStore, folder: string): () => void {
  try {
    return claimFolder(storeLock(store), BUSY)
  } catch (error) {
    if (!isSqliteError(error)) throw error
    throw bagProblem(
      'storage',
      `The disk with the copies in ${folder} is full or cannot be written to.`,
      'Make room on it, or choose a folder on another disk. Earlier copies are as they were.',
    )
  }
}

const lostWords = (lost: readonly string[]): readonly string[] =>
  lost.length === 0
    ? []
    : [
        `${plural('file', lost.length)} could not be copied: ${lost.slice(0, 3).join(' ')} Run the check; everything else is in the copy.`,
      ]

/** Writes the database, the list and what the copy says of itself in a folder without its name, and gives it that. */
async function putInPlace(
  store: CopyStore,
  database: WorkingDatabase,
  { names, bytes, lost }: CopiedFiles,
  { wrapping, now, signal }: CopyJob & { readonly signal: AbortSignal },
): Promise<Pick<CopyMade, 'stamp' | 'head'>> {
  const size = (await sizeOnDisk(database.path)) ?? 0
  await requireRoom(store.folder, size)
  const stamp = await freeStamp(store, now)
  const folder = `${copyFolder(store, stamp)}.part`
  await rm(folder, { recursive: true, force: true })
  await mkdir(folder, { recursive: true })
  try {
    const options = { wrapping, sha256: null, signal }
    const written = await writeWrapped(database.path, join(folder, COPY_FILES.database), options)
    const list = names.map((name) => `${name}\n`).join('')
    const content: CopyContent = {
      ...database.told,
      heads: database.heads,
      database: { bytes: written?.bytes ?? 0, sha256: written?.sha256 ?? '' },
      list: createHash('sha256').update(list).digest('hex'),
      lost: [...lost],
    }
    await writeText(join(folder, COPY_FILES.list), list)
    if (wrapping.sealing !== null) await writeSealed(content, database.path, folder, options)
    const head: CopyHead = {
      format: COPY_FORMAT,
      version: COPY_VERSION,
      made: new Date(now).toISOString(),
      number: database.number,
      bytes: bytes + size,
      isWhole: lost.length === 0,
      sealing: wrapping.sealing,
      content: wrapping.sealing === null ? content : null,
    }
    await writeText(join(folder, COPY_FILES.head), `${JSON.stringify(head, null, 2)}\n`)
    await syncFolder(folder)
    signal.throwIfAborted()
    await rename(folder, copyFolder(store, stamp))
    await syncFolder(copiesIn(store))
    return { stamp, head }
  } catch (error) {
    await rm(folder, { recursive: true, force: true }).catch(() => undefined)
    throw error
  }
}

/** By way of the working folder: as it is it may not lie on the disk of a sealed copy. */
async function writeSealed(
  content: CopyContent,
  databasePath: string,
  folder: string,
  options: Parameters<typeof writeWrapped>[2],
): Promise<void> {
  const plain = `${databasePath}.content`
  await writeText(plain, JSON.stringify(content))
  await writeWrapped(plain, join(folder, COPY_FILES.content), options)
}

/** The second is another one where a copy has it already, as when a clock was set back. */
async function freeStamp(store: CopyStore, now: number): Promise<string> {
  for (let made = now; ; made += 1_000) {
    const stamp = stampOf(made)
    if ((await sizeOnDisk(copyFolder(store, stamp))) === null) return stamp
  }
}

const writeText = (path: string, text: string): Promise<void> => writeFile(path, text, { flush: true })
