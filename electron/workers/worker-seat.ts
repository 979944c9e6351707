import { type Transferable, Worker } from 'node:worker_threads'
import { errorMessage } from '../../domain/text/error-words.ts'

export interface Ticket<Job, Answer> {
  readonly job: Job
  /** What of the job goes over to the worker instead of being copied. */
  readonly transfer?: readonly Transferable[]
  readonly answer: (answer: Answer) => void
}

export interface Seat {
  /** Takes the next ticket of the queue, unless one is being worked on. */
  takeNext(): void
  /** Ends the worker; the ticket it is on is answered as lost. */
  close(): Promise<void>
}

export interface SeatOptions<Job, Answer> {
  /** Shared by the seats of one pool. */
  readonly queue: Ticket<Job, Answer>[]
  readonly workerUrl: URL
  /** What a ticket is answered when its worker is lost. */
  readonly lost: (reason: string) => Answer
  /** Time for one job; a worker that takes longer is ended. */
  readonly jobTimeoutMs?: number | undefined
  /** A worker without work ends after this, which gives its memory back. */
  readonly idleMs?: number | undefined
  /** JavaScript heap only: pixels and files lie outside it. Fonts and the photos of a report come to some 60 MB. */
  readonly heapMb?: number | undefined
  /** Told of every worker that ended by itself, for the log. */
  readonly onWorkerEnd?: ((reason: string) => void) | undefined
}

/** Why the last tickets are lost. */
export const CLOSING = 'the program is closing'

/**
 * One worker thread at most, made when there is work, and the job it is on. A worker that ends in the middle of a job
 * fails that job alone; the next job gets a new worker.
 */
export function createSeat<Job, Answer>(options: SeatOptions<Job, Answer>): Seat {
  const { queue, workerUrl, jobTimeoutMs = 120_000, idleMs = 30_000, heapMb = 256, onWorkerEnd } = options
  let worker: Worker | null = null
  let current: Ticket<Job, Answer> | null = null
  let timer: NodeJS.Timeout | undefined

  function takeNext(): void {
    if (current !== null) return
    clearTimeout(timer)
    current = queue.shift() ?? null
    if (current === null) return rest()
    const busy = (worker ??= start())
    busy.ref()
    timer = setTimeout(() => lose(busy, `it took longer than ${jobTimeoutMs / 1000} s`), jobTimeoutMs)
    busy.postMessage(current.job, current.transfer)
  }

  /** Without work the worker keeps no process alive and ends after a while. */
  function rest(): void {
    worker?.unref()
    timer = setTimeout(() => void stop(), idleMs).unref()
  }

  function start(): Worker {
    const started = new Worker(workerUrl, { resourceLimits: { maxOldGenerationSizeMb: heapMb } })
    started.on('message', (answer: Answer) => {
      if (worker === started) finish(answer)
    })
    started.on('error', (error) => lose(started, errorMessage(error)))
    started.on('exit', (code) => lose(started, `the worker ended with code ${code}`))
    return started
  }

  function finish(answer: Answer): void {
    const finished = current
    current = null
    finished?.answer(answer)
    takeNext()
  }

  function lose(gone: Worker, reason: string): void {
    if (worker !== gone) return
    worker = null
    void gone.terminate()
    onWorkerEnd?.(reason)
    finish(options.lost(reason))
  }

  async function stop(): Promise<void> {
    const stopped = worker
    worker = null
    await stopped?.terminate()
  }

  return {
    takeNext,
    close: async () => {
      clearTimeout(timer)
      current?.answer(options.lost(CLOSING))
      current = null
      await stop()
    },
  }
}
