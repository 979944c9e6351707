import { createHash, randomUUID } from 'node:crypto'
import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { moveForGood } from './move-for-good.ts'
import { isMissing } from './system-error.ts'

/**
 * Keeps the journal that came with a car, under the SHA-256 of its bytes. Once this has answered, the file survives a kill and
 * a power cut; the fact that brings the car in names the digest.
 *
 * @throws the operating system's error when the disk is full or cannot be written
 */
export async function keepCameJournal(folder: string, bytes: Uint8Array): Promise<string> {
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const temporary = join(folder, `${randomUUID()}.part`)
  await mkdir(folder, { recursive: true })
  try {
    await writeFile(temporary, bytes, { flag: 'wx', flush: true })
    await moveForGood(temporary, cameJournalPath(folder, sha256), folder)
  } finally {
    await rm(temporary, { force: true })
  }
  return sha256
}

export function cameJournalPath(folder: string, sha256: string): string {
  return join(folder, `${sha256}.jsonl`)
}

/** A kept journal; null when it is gone or is no longer what came. @throws other errors of the disk than a missing file */
export async function readCameJournal(folder: string, sha256: string): Promise<string | null> {
  try {
    const bytes = await readFile(cameJournalPath(folder, sha256))
    return createHash('sha256').update(bytes).digest('hex') === sha256 ? bytes.toString('utf8') : null
  } catch (error) {
    if (isMissing(error)) return null
    throw error
  }
}

/** Names of the kept journals in the folder; empty while no car has come. */
export async function listCameJournals(folder: string): Promise<readonly string[]> {
  try {
    return (await readdir(folder)).filter((name) => name.endsWith('.jsonl')).toSorted()
  } catch (error) {
    if (isMissing(error)) return []
    throw error
  }
}
