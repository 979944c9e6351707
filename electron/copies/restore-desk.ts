import type { Database } from '../../db/database.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { CopiesDesk } from '../api/copies-desk.ts'
import { copyRefusal } from './copy-problem.ts'
import { findCopies } from './find-copies.ts'
import { restoreHere } from './restore-here.ts'

export type RestoreDesk = Pick<CopiesDesk, 'found' | 'restore' | 'restoring' | 'stopRestoring'>

/** Restores a copy into a data folder in which there is no workshop yet, one at a time. */
export function createRestoreDesk(db: Database, closing: AbortSignal): RestoreDesk {
  let step: string | null = null
  let stopping = new AbortController()
  return {
    found: async (folder) => {
      try {
        const found = await findCopies(folder)
        return found.length === 0
          ? refuse(
              'unknown',
              `There are no copies in ${folder}.`,
              'Name the folder that copies were made into.',
            )
          : ok(found.map(({ store, copies }) => ({ folder: store.folder, copies })))
      } catch (error) {
        return { ok: false, refusal: copyRefusal(error, folder) }
      }
    },
    restore: async ({ folder, stamp, passphrase }): Promise<Result<string>> => {
      if (step !== null || db.dataDir === null) return busy
      stopping = new AbortController()
      step = 'Opening the copy.'
      try {
        const job = { store: { folder }, stamp, secrets: { passphrase, key: null } }
        const restored = await restoreHere(db, db.dataDir, job, {
          signal: AbortSignal.any([closing, stopping.signal]),
          onStep: (words) => (step = words),
        })
        return restored.ok ? ok(restored.value.name) : restored
      } finally {
        step = null
      }
    },
    restoring: () => step,
    stopRestoring: () => stopping.abort(),
  }
}

const busy = refuse('not-now', 'A copy is being restored already.', 'Wait until that is done, or stop it.')
