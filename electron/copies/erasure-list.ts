import { readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Erasure } from '../../db/erasures.ts'
import { syncFolder } from '../../db/move-for-good.ts'
import { isMissing, isSystemError } from '../../db/system-error.ts'
import { ERASURES_FORMAT, erasuresSchema } from '../../domain/copies/copy-shapes.ts'
import type { CopyStore } from './copy-paths.ts'

/** Null where there is none, or none that can be read. */
export type ListedErasures = readonly Erasure[] | null

const listPath = (store: CopyStore): string => join(store.folder, 'erased.json')

/** @throws errors of the disk other than a file that is not there */
export async function readErasureList(store: CopyStore): Promise<ListedErasures> {
  try {
    const said = erasuresSchema.parse(JSON.parse(await readFile(listPath(store), 'utf8')))
    return said.erased.map(({ id, at }) => ({ id, at: Date.parse(at) }))
  } catch (error) {
    if (isSystemError(error) && !isMissing(error)) throw error
    return null
  }
}

/**
 * Adds who is not in the list yet, and makes it where there is none: a copy without a list is known by that. To be called by who
 * holds the store's lock. Nobody is ever taken off it.
 */
export async function addToErasureList(store: CopyStore, erasures: readonly Erasure[]): Promise<void> {
  const listed = await readErasureList(store)
  const known = new Set(listed?.map(({ id }) => id))
  const further = erasures.filter(({ id }) => !known.has(id))
  if (listed !== null && further.length === 0) return
  const erased = [...(listed ?? []), ...further].map(({ id, at }) => ({ id, at: new Date(at).toISOString() }))
  const temporary = `${listPath(store)}.part`
  try {
    const text = `${JSON.stringify({ format: ERASURES_FORMAT, erased }, null, 2)}\n`
    await writeFile(temporary, text, { flush: true })
    await rename(temporary, listPath(store))
    await syncFolder(store.folder)
  } finally {
    await rm(temporary, { force: true }).catch(() => undefined)
  }
}
