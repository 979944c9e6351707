import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { keepByDigest, readByDigest } from './files-by-digest.ts'
import { isMissing } from './system-error.ts'

/** Keeps the journal that came with a car, as {@link keepByDigest} does; the fact that brings the car in names the digest. */
export function keepCameJournal(folder: string, bytes: Uint8Array): Promise<string> {
  return keepByDigest(folder, bytes, (sha256) => cameJournalPath(folder, sha256))
}

/** Where the journal lies that came with a car. */
export function cameJournalPath(folder: string, sha256: string): string {
  return join(folder, `${sha256}.jsonl`)
}

/** A kept journal; null when it is gone or is no longer what came. @throws other errors of the disk than a missing file */
export async function readCameJournal(folder: string, sha256: string): Promise<string | null> {
  return (await readByDigest(cameJournalPath(folder, sha256), sha256))?.toString('utf8') ?? null
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
