import { Worker } from 'node:worker_threads'
import { photoFailure, workerFailed, type PhotoFailure } from '../../db/photos/photo-problem.ts'
import type { ImageAnswers, ImageJob } from './image-job.ts'

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
  const queue: Ticket[] = []
  const seats = Array.from({ length: workerCount }, () => createSeat(options, queue))
  let isClosed = false

  function run<K extends ImageJob['kind']>(job: ImageJob & { readonly kind: K }): Promise<ImageAnswers[K]> {
    if (isClosed) return Promise.resolve(closing)
    return new Promise((resolve) => {
      queue.push({ job, answer: resolve as Ticket['answer'] })
      for (const seat of seats) seat.takeNext()
    })
  }

  return {
    inspect: (path) => run({ kind: 'inspect', path }),
    makeSizes: (sha256) => run({ kind: 'make-sizes', folder, sha256 }),
    close: async () => {
      isClosed = true
      for (const ticket of queue.splice(0)) ticket.answer(closing)
      await Promise.all(seats.map((seat) => seat.close()))
    },
  }
}

type Answer = ImageAnswers[ImageJob['kind']]

interface Ticket {
  readonly job: ImageJob
  readonly answer: (answer: Answer) => void
}

interface Seat {
  takeNext(): void
  close(): Promise<void>
}

const closing: PhotoFailure = photoFailure(workerFailed('the program is closing'))

/**
 * The one place that says where the worker is. It stays a literal: from source Node runs the TypeScript file itself, and
 * the build (build/bring-along.ts) finds this line, makes the worker an entry of its own and points it to the result.
 */
const imageWorkerUrl = new URL('./image-worker.ts', import.meta.url)

/** JavaScript heap only: pixels lie outside it and are bounded by the pixel limit. */
const resourceLimits = { maxOldGenerationSizeMb: 256 }

/** One worker at most, made when there is work, and the job it is on. */
function createSeat(options: ImagePoolOptions, queue: Ticket[]): Seat {
  const { jobTimeoutMs = 120_000, idleMs = 30_000, workerUrl = imageWorkerUrl, onWorkerEnd } = options
  let worker: Worker | null = null
  let current: Ticket | null = null
  let timer: NodeJS.Timeout | undefined

  function takeNext(): void {
    if (current !== null) return
    clearTimeout(timer)
    current = queue.shift() ?? null
    if (current === null) return rest()
    const busy = (worker ??= start())
    busy.ref()
    timer = setTimeout(() => lose(busy, `it took longer than ${jobTimeoutMs / 1000} s`), jobTimeoutMs)
    busy.postMessage(current.job)
  }

  /** Without work the worker keeps no process alive and ends after a while. */
  function rest(): void {
    worker?.unref()
    timer = setTimeout(() => void stop(), idleMs).unref()
  }

  function start(): Worker {
    const started = new Worker(workerUrl, { resourceLimits })
    started.on('message', (answer: Answer) => {
      if (worker === started) finish(answer)
    })
    started.on('error', (error) => lose(started, error instanceof Error ? error.message : String(error)))
    started.on('exit', (code) => lose(started, `the worker ended with code ${code}`))
    return started
  }

  function finish(answer: Answer): void {
    const finished = current
    current = null
    finished?.answer(answer)
    takeNext()
  }

  function lose(lost: Worker, reason: string): void {
    if (worker !== lost) return
    worker = null
    void lost.terminate()
    onWorkerEnd?.(reason)
    finish(photoFailure(workerFailed(reason)))
  }

  async function stop(): Promise<void> {
    const stopped = worker
    worker = null
    await stopped?.terminate()
  }

  async function close(): Promise<void> {
    clearTimeout(timer)
    current?.answer(closing)
    current = null
    await stop()
  }

  return { takeNext, close }
}
