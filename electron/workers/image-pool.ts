import { photoFailure, workerFailed, type PhotoFailure } from '../../db/photos/photo-problem.ts'
import type { ImageAnswers, ImageJob } from './image-job.ts'
import { CLOSING, createSeat, type Ticket } from './worker-seat.ts'

export interface ImagePool {
  /** The intake check of a file; see `inspectPhoto`. */
  inspect(path: string): Promise<ImageAnswers['inspect']>
  /** Makes every size of a stored photo; see `makeSizes`. */
  makeSizes(sha256: string): Promise<ImageAnswers['make-sizes']>
  /** Ends the workers; what still waits is answered 'worker-failed'. */
  close(): Promise<void>
}

export interface ImagePoolOptions {
  /** The photo folder. */
  readonly folder: string
  /** Each may take up to about 400 MB for a photo of 100 megapixels, HEIC twice that. */
  readonly workerCount?: number
  /** Time for one photo; a worker that takes longer is ended. */
  readonly jobTimeoutMs?: number
  /** A worker without work ends after this, which gives back the memory of its decoders. */
  readonly idleMs?: number
  /** Told of every worker that ended by itself, for the log. */
  readonly onWorkerEnd?: (reason: string) => void
  /** Told when work comes in and when all is done, so that other work can give way. */
  readonly onBusy?: (isBusy: boolean) => void
  /** Tests put a worker here that fails. */
  readonly workerUrl?: URL
}

/**
 * A small pool of worker threads for decoding photos. Jobs carry paths and not pixels, so a long queue costs no memory.
 * A worker that ends in the middle of a job fails that job alone; the next job gets a new worker. It cannot protect the
 * host from a crash inside native code.
 */
export function createImagePool(options: ImagePoolOptions): ImagePool {
  const { folder, workerCount = 1 } = options
  const queue: Ticket<ImageJob, Answer>[] = []
  const seats = Array.from({ length: workerCount }, () =>
    createSeat({ ...options, queue, workerUrl: options.workerUrl ?? imageWorkerUrl, lost }),
  )
  let isClosed = false
  let underWay = 0

  function begin(): void {
    underWay += 1
    if (underWay === 1) options.onBusy?.(true)
  }

  function end(): void {
    underWay -= 1
    if (underWay === 0) options.onBusy?.(false)
  }

  function run<K extends ImageJob['kind']>(job: ImageJob & { readonly kind: K }): Promise<ImageAnswers[K]> {
    if (isClosed) return Promise.resolve(lost(CLOSING))
    begin()
    return new Promise((resolve) => {
      const answer = (given: Answer): void => {
        end()
        resolve(given as ImageAnswers[K])
      }
      queue.push({ job, answer })
      for (const seat of seats) seat.takeNext()
    })
  }

  return {
    inspect: (path) => run({ kind: 'inspect', path }),
    makeSizes: (sha256) => run({ kind: 'make-sizes', folder, sha256 }),
    close: async () => {
      isClosed = true
      for (const ticket of queue.splice(0)) ticket.answer(lost(CLOSING))
      await Promise.all(seats.map((seat) => seat.close()))
    },
  }
}

type Answer = ImageAnswers[ImageJob['kind']]

const lost = (reason: string): PhotoFailure => photoFailure(workerFailed(reason))

/**
 * The one place that says where the worker is. It stays a literal: from source Node runs the TypeScript file itself, and
 * the build (build/bring-along.ts) finds this line, makes the worker an entry of its own and points it to the result.
 */
const imageWorkerUrl = new URL('./image-worker.ts', import.meta.url)
