import { randomUUID } from 'node:crypto'
import { readdir, rename, rmdir } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { databasePath } from '../../db/data-paths.ts'
import { syncFolder } from '../../db/move-for-good.ts'
import { isMissing } from '../../db/system-error.ts'
import { bagProblem } from '../bag/bag-problem.ts'

/** Where a data folder is made before it gets its name: beside it, so that a rename is one step. */
export const besideFolder = (dataDir: string): string =>
  join(dirname(dataDir), `.${basename(dataDir)}.${randomUUID()}.part`)

/** @throws BagProblem when there is anything in the folder; one that is not there counts as empty */
export async function requireEmpty(dataDir: string): Promise<void> {
  const names = await namesIn(dataDir)
  if (names.length === 0) return
  const what = names.includes(basename(databasePath(dataDir)))
    ? `There is a workshop in ${dataDir} already.`
    : `${dataDir} is not empty.`
  throw bagProblem('already', what, 'Name an empty folder, or one that is not there yet.')
}

/** Empty for a folder that is not there. */
export async function namesIn(folder: string): Promise<readonly string[]> {
  try {
    return await readdir(folder)
  } catch (error) {
    if (isMissing(error)) return []
    throw error
  }
}

/** An empty folder gives way; one that was filled meanwhile does not. */
export async function putInPlace(temporary: string, dataDir: string): Promise<void> {
  try {
    await rmdir(dataDir)
  } catch (error) {
    if (!isMissing(error)) await requireEmpty(dataDir)
  }
  await rename(temporary, dataDir)
  await syncFolder(dirname(dataDir))
}
