/*
 * Makes or verifies one copy off the host's event loop, on connections of its own; started by copies-desk.ts, which tells it to
 * stop with any message.
 */
import { parentPort, workerData } from 'node:worker_threads'
import type { Result } from '../../domain/refusal.ts'
import { tellOften } from '../workers/tell-often.ts'
import { copyRefusal } from './copy-problem.ts'
import type { CopyWorkerJob, FromCopyWorker } from './copy-worker-job.ts'
import { readKeptKey, wrappingHere } from './kept-key.ts'
import { type CopyMade, type CopyOptions, type CopyProgress, makeCopy } from './make-copy.ts'
import { verifyCopy } from './verify-copy.ts'

const stopping = new AbortController()
parentPort?.once('message', () => stopping.abort())
await work(workerData as CopyWorkerJob)
parentPort?.close()

async function work(job: CopyWorkerJob): Promise<void> {
  const onProgress = tellOften<CopyProgress>(
    ({ words }) => words,
    (progress) => tell({ kind: 'progress', progress }),
  )
  const options = { signal: stopping.signal, onProgress }
  if (job.kind === 'copy') return tell({ kind: 'copied', result: await copy(job, options) })
  const key = (await readKeptKey(job.dataDir))?.key ?? null
  const result = await verifyCopy({ ...job, secrets: { passphrase: job.passphrase, key } }, options)
  tell({ kind: 'verified', result })
}

async function copy(
  job: Extract<CopyWorkerJob, { readonly kind: 'copy' }>,
  options: CopyOptions,
): Promise<Result<CopyMade>> {
  try {
    return await makeCopy({ ...job, wrapping: await wrappingHere(job.dataDir, job.isSealed) }, options)
  } catch (error) {
    return { ok: false, refusal: copyRefusal(error, job.dataDir) }
  }
}

function tell(message: FromCopyWorker): void {
  parentPort?.postMessage(message)
}
