import type { PlanSheet } from '../../domain/plan/plan-sheet.ts'
import type { EstimateLetter } from '../../domain/report/estimate-letter.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import type { VariationLetter } from '../../domain/report/variation-letter.ts'
import type { PrintedAs } from '../api/deps.ts'
import { CLOSING, createSeat, type Ticket } from '../workers/worker-seat.ts'
import { createBookPrinter, type WriteBook } from './book-printer.ts'
import type { PrintAnswer, PrintJob } from './print-job.ts'

export interface Printer {
  /** @throws Error that says why a report could not be printed; the next one may still be */
  readonly print: (week: OwnerWeek, as: PrintedAs) => Promise<Uint8Array<ArrayBuffer>>
  /** A report as one HTML file, UTF-8. @throws Error that says why it could not be written */
  readonly writePage: (week: OwnerWeek, as: PrintedAs) => Promise<Uint8Array<ArrayBuffer>>
  /** The plan of one person or bay. @throws Error that says why it could not be printed */
  readonly printPlan: (sheet: PlanSheet) => Promise<Uint8Array<ArrayBuffer>>
  /** A variation as a letter to its payer. @throws Error that says why it could not be printed */
  readonly printVariation: (letter: VariationLetter) => Promise<Uint8Array<ArrayBuffer>>
  /** An estimate as a letter to the owner. @throws Error that says why it could not be printed */
  readonly printEstimate: (letter: EstimateLetter) => Promise<Uint8Array<ArrayBuffer>>
  /** A car's book as a PDF in a file, photo by photo; the photos come from the printer's folder. */
  readonly writeBook: WriteBook
  /** Ends the workers; what still waits is answered with an error. */
  readonly close: () => Promise<void>
}

export interface PrinterOptions {
  readonly photosFolder: string
  /** Time for one of them; a worker that takes longer is ended. */
  readonly jobTimeoutMs?: number
  /** A worker without work ends after this, which gives back its memory. */
  readonly idleMs?: number
  /** Tests put a worker here that fails. */
  readonly workerUrl?: URL
}

/**
 * Prints reports, plans and letters one after the other in a worker thread, which is started when there is work. A book, which takes long,
 * has a worker of its own.
 */
export function createPrinter(options: PrinterOptions): Printer {
  const { photosFolder } = options
  const queue: Ticket<PrintJob, PrintAnswer>[] = []
  const workerUrl = options.workerUrl ?? printWorkerUrl
  const seat = createSeat({ ...options, queue, workerUrl, lost })
  const { jobTimeoutMs: _, ...others } = options
  const books = createBookPrinter({ ...others, workerUrl })
  let isClosed = false

  const print = (job: PrintJob): Promise<Uint8Array<ArrayBuffer>> =>
    new Promise((resolve, reject) => {
      const answer = (result: PrintAnswer) =>
        result.ok
          ? resolve(result.bytes)
          : reject(new Error(`The ${job.kind} could not be printed: ${result.reason}. Try again.`))
      if (isClosed) return answer(lost(CLOSING))
      queue.push({ job, answer })
      seat.takeNext()
    })

  return {
    print: (week, as) => print({ kind: 'report', week, as, photosFolder }),
    writePage: (week, as) => print({ kind: 'page', week, as, photosFolder }),
    printPlan: (sheet) => print({ kind: 'plan', sheet }),
    printVariation: (letter) => print({ kind: 'variation', letter, photosFolder }),
    printEstimate: (letter) => print({ kind: 'estimate', letter, photosFolder }),
    writeBook: books.writeBook,
    close: async () => {
      isClosed = true
      for (const ticket of queue.splice(0)) ticket.answer(lost(CLOSING))
      await Promise.all([seat.close(), books.close()])
    },
  }
}

const lost = (reason: string): PrintAnswer => ({ ok: false, reason })

/**
 * The one place that says where the worker is. It stays a literal: from source Node runs the TypeScript file itself, and
 * the build (build/bring-along.ts) makes the worker an entry of its own and points this line to the result.
 */
const printWorkerUrl = new URL('./print-worker.ts', import.meta.url)
