import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { readContacts, writeContacts } from '../../db/contacts.ts'
import { type Database, readingOn } from '../../db/database.ts'
import { type Erasure, readErasures } from '../../db/erasures.ts'
import { openReader } from '../../db/handle.ts'
import { BagProblem } from '../bag/bag-problem.ts'
import { listCopies } from './find-copies.ts'
import { type CopySecrets, openCopy, type OpenCopy, takeDatabase } from './open-copy.ts'

export interface LaterContacts {
  readonly erasures: readonly Erasure[]
  readonly notes: readonly string[]
}

/**
 * Names and addresses have no history and are in no fact: where a later copy of the workshop lies beside the one that is
 * restored, they are taken from it, so that what was erased since does not come back.
 *
 * @param folder to work in
 * @returns who was erased by then, and why it could not be done, in words; a sentence or nothing
 */
export async function takeLaterContacts(
  { store, head }: OpenCopy,
  { writer }: Database,
  {
    secrets,
    folder,
    signal,
  }: { readonly secrets: CopySecrets; readonly folder: string; readonly signal: AbortSignal },
): Promise<LaterContacts> {
  const [newest] = await listCopies(store)
  if (newest === undefined || newest.made <= Date.parse(head.made)) return { erasures: [], notes: [] }
  const path = join(folder, 'later.db')
  try {
    await takeDatabase(await openCopy(store, newest.stamp, secrets), path, signal)
    const later = openReader(path)
    try {
      const known = new Set(readContacts(writer).map(({ id }) => id))
      writeContacts(
        writer,
        readContacts(later).filter(({ id }) => known.has(id)),
      )
      return { erasures: readErasures(readingOn(later)), notes: [] }
    } finally {
      later.sqlite.close()
    }
  } catch (error) {
    if (!(error instanceof BagProblem)) throw error
    const note = `Names and addresses are as they were then, as a later copy cannot be read: ${error.message}`
    return { erasures: [], notes: [note] }
  } finally {
    await rm(path, { force: true })
  }
}
