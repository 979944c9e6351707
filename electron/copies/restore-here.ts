import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { takingInFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import type { Result } from '../../domain/refusal.ts'
import { notEmpty, takeOver } from '../whole/take-in-here.ts'
import { copyRefusal } from './copy-problem.ts'
import { restoreCopy, type Restored, type RestoreJob, type RestoreOptions } from './restore-copy.ts'

/**
 * Restores a copy into the folder of a host at work, in which there is no workshop yet: made and checked beside it first, then
 * taken over in one step. What ends before that leaves the folder without a workshop.
 */
export async function restoreHere(
  db: Database,
  dataDir: string,
  job: RestoreJob,
  options: RestoreOptions,
): Promise<Result<Restored>> {
  const folder = takingInFolder(dataDir)
  const made = join(folder, 'data')
  try {
    await rm(folder, { recursive: true, force: true })
    const restored = await restoreCopy(job, made, options)
    if (!restored.ok) return restored
    return (await takeOver(db, made, dataDir)) ? restored : notEmpty
  } catch (error) {
    return { ok: false, refusal: copyRefusal(error, dataDir) }
  } finally {
    // What cannot be cleared away now is, before the next one.
    await rm(folder, { recursive: true, force: true }).catch(() => undefined)
  }
}
