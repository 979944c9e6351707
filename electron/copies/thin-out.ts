import { readFile, rename, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { isSystemError } from '../../db/system-error.ts'
import { copiesToDrop } from '../../domain/copies/thin-copies.ts'
import {
  COPY_FILES,
  copiesIn,
  copyFolder,
  type CopyStore,
  filesIn,
  isStamp,
  isUnfinished,
} from './copy-paths.ts'
import { namesIn } from '../whole/new-folder.ts'
import { listCopies } from './find-copies.ts'

export interface Thinned {
  readonly dropped: readonly string[]
  /** Why not all could be done, in words; a sentence or nothing. */
  readonly problem: readonly string[]
}

/**
 * Removes the copies that are not needed any more by their age, and then the files that none of the others names. To be called
 * by who holds the store's lock. A copy loses its name first, so that a kill in between leaves what the next call clears away.
 */
export async function thinOut(store: CopyStore, now: number, zone: string): Promise<Thinned> {
  try {
    const dropped = copiesToDrop(await listCopies(store), now, zone)
    for (const stamp of dropped) await rename(copyFolder(store, stamp), `${copyFolder(store, stamp)}.part`)
    await clearAway(store)
    return { dropped, problem: [] }
  } catch (error) {
    if (!isSystemError(error)) throw error
    return { dropped: [], problem: [`Old copies could not be removed (${error.code}).`] }
  }
}

async function clearAway(store: CopyStore): Promise<void> {
  const names = await namesIn(copiesIn(store))
  for (const name of names.filter(isUnfinished)) await rm(join(copiesIn(store), name), { recursive: true })
  const named = new Set<string>()
  for (const stamp of names.filter(isStamp)) {
    // A copy without its list is damaged: which files it needs is not known, so that none is removed.
    const list = await readFile(join(copyFolder(store, stamp), COPY_FILES.list), 'utf8')
    for (const name of list.split('\n')) named.add(name)
  }
  for (const part of await namesIn(filesIn(store)))
    for (const name of await namesIn(join(filesIn(store), part)))
      if (!named.has(name)) await rm(join(filesIn(store), part, name))
}
