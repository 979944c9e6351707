/*
 * Checks a data folder off the host's event loop, on a connection of its own that cannot write; started for one check by
 * check-desk.ts, which ends it where the check is stopped.
 */
import { parentPort, workerData } from 'node:worker_threads'
import type { CheckProgress } from '../../db/check.ts'
import { checkFolder } from '../../db/check-folder.ts'
import { DatabaseProblem } from '../../db/database-problem.ts'
import { openDatabase } from '../../db/open-database.ts'
import { sharp } from '../../db/photos/sharp.ts'
import { tellOften } from '../workers/tell-often.ts'
import type { CheckJob, FromCheckWorker } from './check-job.ts'

// One thread leaves the other cores to the host.
sharp.concurrency(1)
await check(workerData as CheckJob)

async function check({ dataDir, leftBefore }: CheckJob): Promise<void> {
  try {
    const db = openDatabase(dataDir, { readonly: true })
    try {
      const onProgress = tellOften<CheckProgress>(
        ({ of }) => of,
        (progress) => tell({ kind: 'progress', progress }),
      )
      const findings = await checkFolder(db, dataDir, { leftBefore, onProgress })
      tell({ kind: 'found', findings })
    } finally {
      db.close()
    }
  } catch (error) {
    if (!(error instanceof DatabaseProblem)) throw error
    tell({ kind: 'failed', words: error.message })
  }
}

function tell(message: FromCheckWorker): void {
  parentPort?.postMessage(message)
}
