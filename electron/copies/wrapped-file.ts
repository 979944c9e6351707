import { createReadStream, createWriteStream } from 'node:fs'
import { mkdir, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname } from 'node:path'
import { Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { isMissing } from '../../db/system-error.ts'
import { bagProblem } from '../bag/bag-problem.ts'
import { type Hashed, hashThrough } from '../bag/hash-through.ts'
import type { Wrapping } from './wrapping.ts'

/**
 * Writes a file's content to a path, wrapped: under another name first, forced to the disk, read again and compared. What
 * fails leaves nothing behind.
 *
 * @param sha256 what the content must have; null where any will do
 * @returns null when the content is not that
 * @throws BagProblem when the disk gives back something else than it was given; errors of the disk
 */
export async function writeWrapped(
  from: string,
  to: string,
  {
    wrapping,
    sha256,
    signal,
  }: { readonly wrapping: Wrapping; readonly sha256: string | null; readonly signal: AbortSignal },
): Promise<Hashed | null> {
  const temporary = `${to}.part`
  await mkdir(dirname(to), { recursive: true })
  try {
    let written: Hashed | null = null
    const hash = hashThrough((hashed) => (written = hashed))
    const out = createWriteStream(temporary, { flush: true })
    await pipeline([createReadStream(from), hash, ...wrapping.wrap(basename(to)), out], { signal })
    const { sha256: was } = written as unknown as Hashed
    if (sha256 !== null && was !== sha256) return null
    const read = await hashWrapped(temporary, basename(to), wrapping, signal)
    if (read.sha256 !== was)
      throw bagProblem(
        'storage',
        'What was written to the disk with the copies reads otherwise: the disk is failing.',
        'Have it checked, or choose a folder on another disk. Earlier copies are as they were.',
      )
    await rename(temporary, to)
    return read
  } finally {
    await rm(temporary, { force: true }).catch(() => undefined)
  }
}

/** Length and digest of the content of a wrapped file. @param name that it was wrapped under */
export async function hashWrapped(
  path: string,
  name: string,
  wrapping: Wrapping,
  signal: AbortSignal,
): Promise<Hashed> {
  let hashed: Hashed | null = null
  const hash = hashThrough((read) => (hashed = read))
  const drop = new Writable({ write: (_chunk, _encoding, done) => done() })
  await pipeline([createReadStream(path), ...wrapping.unwrap(name), hash, drop], { signal })
  return hashed as unknown as Hashed
}

/** Null when there is no such file. @throws other errors of the disk */
export async function sizeOnDisk(path: string): Promise<number | null> {
  try {
    return (await stat(path)).size
  } catch (error) {
    if (isMissing(error)) return null
    throw error
  }
}
