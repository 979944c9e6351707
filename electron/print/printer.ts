import { Worker } from 'node:worker_threads'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import type { PrintAnswer, PrintJob } from './print-job.ts'
import type { PrintedAs } from './print-owner-week.ts'

export interface Printer {
  /** @throws Error that says why a report could not be printed; the next one may still be */
  readonly print: (week: OwnerWeek, as: PrintedAs) => Promise<Uint8Array<ArrayBuffer>>
  /** Ends the worker; what still waits is answered with an error. */
  readonly close: () => Promise<void>
}

export interface PrinterOptions {
  readonly photosFolder: string
  /** Time for one report; a worker that takes longer is ended. */
  readonly jobTimeoutMs?: number
  /** A worker without work ends after this, which gives back its memory. */
  readonly idleMs?: number
  /** Tests put a worker here that fails. */
  readonly workerUrl?: URL
}

/** Prints reports one after the other in a worker thread, which is started when there is work. */
export function createPrinter(options: PrinterOptions): Printer {
  const { photosFolder, jobTimeoutMs = 120_000, idleMs = 30_000, workerUrl = printWorkerUrl } = options
  const queue: Ticket[] = []
  let worker: Worker | null = null
  let current: Ticket | null = null
  let timer: NodeJS.Timeout | undefined
  let isClosed = false

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

  function rest(): void {
    worker?.unref()
    timer = setTimeout(() => void stop(), idleMs).unref()
  }

  function start(): Worker {
    const started = new Worker(workerUrl, { resourceLimits })
    started.on('message', (answer: PrintAnswer) => {
      if (worker === started) finish(answer)
    })
    started.on('error', (error) => lose(started, error instanceof Error ? error.message : String(error)))
    started.on('exit', (code) => lose(started, `the worker ended with code ${code}`))
    return started
  }

  function finish(answer: PrintAnswer): void {
    const finished = current
    current = null
    finished?.answer(answer)
    takeNext()
  }

  function lose(lost: Worker, reason: string): void {
    if (worker !== lost) return
    worker = null
    void lost.terminate()
    finish({ ok: false, reason })
  }

  async function stop(): Promise<void> {
    const stopped = worker
    worker = null
    await stopped?.terminate()
  }

  return {
    print: (week, as) =>
      new Promise((resolve, reject) => {
        const answer = (result: PrintAnswer) =>
          result.ok
            ? resolve(result.pdf)
            : reject(new Error(`The report could not be printed: ${result.reason}. Try again.`))
        if (isClosed) return answer(closing)
        queue.push({ job: { week, as, photosFolder }, answer })
        takeNext()
      }),
    close: async () => {
      isClosed = true
      clearTimeout(timer)
      const waiting = [...(current === null ? [] : [current]), ...queue.splice(0)]
      current = null
      for (const ticket of waiting) ticket.answer(closing)
      await stop()
    },
  }
}

interface Ticket {
  readonly job: PrintJob
  readonly answer: (answer: PrintAnswer) => void
}

const closing: PrintAnswer = { ok: false, reason: 'the program is closing' }

/** Fonts and twelve photos of a report come to some 60 MB. */
const resourceLimits = { maxOldGenerationSizeMb: 256 }

/**
 * The one place that says where the worker is. It stays a literal: from source Node runs the TypeScript file itself, and
 * the build (build/bring-along.ts) makes the worker an entry of its own and points this line to the result.
 */
const printWorkerUrl = new URL('./print-worker.ts', import.meta.url)
