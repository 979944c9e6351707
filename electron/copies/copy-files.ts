import { dirname } from 'node:path'
import { syncFolders } from '../../db/move-for-good.ts'
import { isMissing } from '../../db/system-error.ts'
import type { WholeFile } from '../whole/whole-files.ts'
import { filePath, type CopyStore } from './copy-paths.ts'
import { hashWrapped, sizeOnDisk, writeWrapped } from './wrapped-file.ts'
import { requireRoom } from './target.ts'
import type { Wrapping } from './wrapping.ts'

/** Each copy reads one part in so many of the earlier files again, by days: daily copies read all of them within 32. */
const REREAD_PARTS = 32
const MS_PER_DAY = 86_400_000

export interface CopiedFiles {
  /** Of the files that the copy has, in order. */
  readonly names: readonly string[]
  /** Of all of them, as the workshop holds them. */
  readonly bytes: number
  /** Files that were written now, and their bytes. */
  readonly written: number
  readonly writtenBytes: number
  /** Earlier ones that were read again. */
  readonly readAgain: number
  /** What can be had neither here nor from an earlier copy, in words. */
  readonly lost: readonly string[]
}

export interface CopyFilesOptions {
  readonly store: CopyStore
  readonly wrapping: Wrapping
  /** Of the host, epoch milliseconds: says which part is read again. */
  readonly now: number
  readonly signal: AbortSignal
  readonly onFile: (done: number) => void
}

/**
 * Copies the files that the store does not have yet. Earlier ones are known by their size; a part of them is read again, and
 * written anew where it is not what it was. What is gone or was changed in the workshop stays as an earlier copy has it.
 *
 * @throws BagProblem when there is no room for them, errors of the disk
 */
export async function copyFiles(
  files: readonly WholeFile[],
  options: CopyFilesOptions,
): Promise<CopiedFiles> {
  const { store, signal, onFile } = options
  const seen: Seen[] = []
  for (const file of files) seen.push(await lookAt(file, options))
  const missing = seen.filter((file) => !hasRightSize(file, options))
  await requireRoom(store.folder, sumBytes(missing))

  const done: { readonly file: Seen; readonly as: Outcome }[] = []
  for (const file of seen) {
    signal.throwIfAborted()
    onFile(done.length)
    done.push({ file, as: await keep(file, options) })
  }
  const which = (as: Outcome) => done.filter((each) => each.as === as).map(({ file }) => file)
  const written = which('written')
  const folders = new Set(written.map(({ path }) => dirname(path)))
  for (const folder of folders) await syncFolders(folder, store.folder)
  const kept = done.filter(({ as }) => as !== 'lost').map(({ file }) => file)
  return {
    names: [...new Set(kept.map(({ name }) => name))].toSorted(),
    bytes: sumBytes(kept),
    written: written.length,
    writtenBytes: sumBytes(written),
    readAgain: which('read again').length,
    lost: which('lost').map(({ what }) => `${what} is gone, or is not what was kept.`),
  }
}

interface Seen extends WholeFile {
  /** In the store. */
  readonly name: string
  readonly path: string
  /** Of the original; null when it is gone. */
  readonly bytes: number | null
  /** Of what the store has; null when it has none. */
  readonly onDisk: number | null
}

type Outcome = 'kept' | 'read again' | 'written' | 'lost'

async function lookAt(file: WholeFile, { store, wrapping }: CopyFilesOptions): Promise<Seen> {
  const name = wrapping.nameOf(file.sha256)
  const path = filePath(store, name)
  const [bytes, onDisk] = await Promise.all([sizeOnDisk(file.place), sizeOnDisk(path)])
  return { ...file, name, path, bytes, onDisk }
}

async function keep(file: Seen, options: CopyFilesOptions): Promise<Outcome> {
  const isRight = hasRightSize(file, options)
  if (isRight && !isDue(file, options)) return 'kept'
  if (isRight && (await isIntact(file, options))) return 'read again'
  if (await writeAnew(file, options)) return 'written'
  return file.onDisk !== null && (await isIntact(file, options)) ? 'kept' : 'lost'
}

const hasRightSize = ({ bytes, onDisk }: Seen, { wrapping }: CopyFilesOptions): boolean =>
  bytes !== null && onDisk === wrapping.sizeOf(bytes)

const isDue = ({ name }: Seen, { now }: CopyFilesOptions): boolean =>
  Number.parseInt(name.slice(0, 2), 16) % REREAD_PARTS === Math.floor(now / MS_PER_DAY) % REREAD_PARTS

async function isIntact(
  { path, name, sha256 }: Seen,
  { wrapping, signal }: CopyFilesOptions,
): Promise<boolean> {
  try {
    return (await hashWrapped(path, name, wrapping, signal)).sha256 === sha256
  } catch (error) {
    // A place on the disk that cannot be read any more is written anew, elsewhere on it.
    if (signal.aborted) throw error
    return false
  }
}

async function writeAnew(file: Seen, { wrapping, signal }: CopyFilesOptions): Promise<boolean> {
  if (file.bytes === null) return false
  try {
    return (await writeWrapped(file.place, file.path, { wrapping, sha256: file.sha256, signal })) !== null
  } catch (error) {
    if (isMissing(error) && (await sizeOnDisk(file.place)) === null) return false
    throw error
  }
}

const sumBytes = (files: readonly Seen[]): number => files.reduce((sum, { bytes }) => sum + (bytes ?? 0), 0)
