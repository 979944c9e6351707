import { Worker } from 'node:worker_threads'
import { errorStack } from '../../domain/text/error-words.ts'
import type { CopyWorkerJob, FromCopyWorker } from './copy-worker-job.ts'
import type { CopyProgress } from './make-copy.ts'

/** A copy that is being made or verified in a worker thread. */
export interface CopyWork {
  /** What it came to; null when the worker ended without a word, which is a defect. */
  readonly ended: Promise<Exclude<FromCopyWorker, { readonly kind: 'progress' }> | null>
  /** Asks it to stop; it clears away what it has begun. */
  readonly stop: () => void
}

/** A journal of ten years is followed line by line when a copy is verified. */
const HEAP_MB = 1_024

/** Starts one copy or one reading of a copy. @param log told of a defect, after which the work has ended */
export function startCopyWork(
  job: CopyWorkerJob,
  onProgress: (progress: CopyProgress) => void,
  log: (line: string) => void,
): CopyWork {
  const worker = new Worker(copyWorkerUrl, {
    workerData: job,
    resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
  })
  const ended = new Promise<Awaited<CopyWork['ended']>>((resolve) => {
    worker.on('message', (message: FromCopyWorker) => {
      if (message.kind === 'progress') onProgress(message.progress)
      else resolve(message)
    })
    worker.on('error', (error) => {
      log(`copies: ${errorStack(error)}`)
      resolve(null)
    })
    worker.on('exit', () => resolve(null))
  })
  return { ended, stop: () => worker.postMessage('stop') }
}

/** A literal, so that the build finds the worker and puts it beside the bundle. */
const copyWorkerUrl = new URL('./copy-worker.ts', import.meta.url)
