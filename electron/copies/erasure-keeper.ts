import { readCopiesSet } from '../../db/copy-records.ts'
import { DatabaseProblem, isSqliteError } from '../../db/database-problem.ts'
import type { Database } from '../../db/database.ts'
import { eraseBeforeMigration, readErasures } from '../../db/erasures.ts'
import { emptyLog } from '../../db/handle.ts'
import { claimFolder } from '../../db/host-lock.ts'
import { isThere } from '../../db/is-there.ts'
import { firstHash } from '../../db/journal.ts'
import { isSystemError } from '../../db/system-error.ts'
import { type CopyStore, storeLock, workshopFolder } from './copy-paths.ts'
import { addToErasureList } from './erasure-list.ts'

/** Sees to it that nothing of an erased contact stays, and that copies from before are not restored without knowing. */
export interface ErasureKeeper {
  /** Does what is still to be done; to be called again and again, as disks come and go. */
  readonly look: () => Promise<void>
  /** Why the list beside the copies does not have all of them, in words; null where it does. */
  readonly problem: () => string | null
}

/** One for each run of the host. @param log told what the disk says, once as long as it says the same */
export function createErasureKeeper(db: Database, log: (line: string) => void): ErasureKeeper {
  // Nothing is known of what a host before this one came to do: both are done once after each start.
  let cleared = 0
  let listed = ''
  let problem: string | null = null
  let told = ''
  let under: Promise<void> | null = null
  let isAskedAgain = false

  const clear = (count: number): void => {
    if (count === cleared || db.dataDir === null) return
    try {
      eraseBeforeMigration(db.dataDir, readErasures(db))
      if (emptyLog(db.writer)) cleared = count
    } catch (error) {
      if (!isOfDisk(error)) throw error
      if (error.message !== told) log(`erasures: ${error.message}`)
      told = error.message
    }
  }
  const list = async (count: number): Promise<void> => {
    const set = readCopiesSet(db)
    const first = firstHash(db)
    if (set === null || first === null) return
    const now = `${set.folder} ${count}`
    if (now === listed) return
    const store = { folder: workshopFolder(set.folder, first) }
    try {
      if (await isThere(store.folder)) await addInTurn(store, db)
      else if (set.isKnown) return void (problem = `${NOT_LISTED} The folder ${set.folder} is not there.`)
      listed = now
      problem = null
    } catch (error) {
      // Another one is making a copy: nothing is wrong.
      if (error instanceof DatabaseProblem) return
      if (!isOfDisk(error)) throw error
      problem = `${NOT_LISTED} ${error.message}`
    }
  }
  const lookOnce = async (): Promise<void> => {
    const count = readErasures(db).length
    if (count === 0) return
    clear(count)
    await list(count)
  }
  /** One after the other: an earlier one that a slow disk holds up must not have the last word. */
  const lookUntilDone = async (): Promise<void> => {
    try {
      do {
        isAskedAgain = false
        await lookOnce()
      } while (isAskedAgain)
    } finally {
      under = null
    }
  }
  return {
    look: () => {
      isAskedAgain = under !== null
      under ??= lookUntilDone()
      return under
    },
    problem: () => problem,
  }
}

/** Waits for no copy: who makes one writes the list as well, and this is tried again. */
async function addInTurn(store: CopyStore, db: Database): Promise<void> {
  const giveFree = claimFolder(storeLock(store), 'A copy is being made.')
  try {
    await addToErasureList(store, readErasures(db))
  } finally {
    giveFree()
  }
}

const isOfDisk = (error: unknown): error is Error =>
  isSystemError(error) || isSqliteError(error) || error instanceof DatabaseProblem

const NOT_LISTED =
  'Contacts were erased, and the list beside the copies does not say so yet: a copy from before that is restored would bring them back. Attach the disk; the list is then written by itself.'
