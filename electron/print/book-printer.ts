import { rm } from 'node:fs/promises'
import { MessageChannel } from 'node:worker_threads'
import { refuse, type Result } from '../../domain/refusal.ts'
import type { CarBook } from '../../domain/report/car-book-shapes.ts'
import { CLOSING, createSeat, type Ticket } from '../workers/worker-seat.ts'
import type { BookAnswer, BookJob } from './book-job.ts'
import {
  type BookProgress,
  type BookWritten,
  partialBook,
  stopped,
  type WriteBookOptions,
} from './write-book.ts'

/** As `writeBook` does it, in a worker. */
export type WriteBook = (
  book: CarBook,
  to: string,
  options?: Omit<WriteBookOptions, 'openFile'>,
) => Promise<Result<BookWritten>>

export interface BookPrinter {
  readonly writeBook: WriteBook
  /** Ends the worker; what still waits is refused. */
  readonly close: () => Promise<void>
}

export interface BookPrinterOptions {
  readonly photosFolder: string
  readonly workerUrl: URL
  readonly idleMs?: number
}

/** Thousands of photos take minutes; people stop a book that takes too long. */
const jobTimeoutMs = 3_600_000

/** Writes books one after the other in a print worker of their own: a letter does not wait for a book. */
export function createBookPrinter({ photosFolder, workerUrl, idleMs }: BookPrinterOptions): BookPrinter {
  const queue: Ticket<BookJob, BookAnswer>[] = []
  const seat = createSeat<BookJob, BookAnswer>({ queue, workerUrl, idleMs, jobTimeoutMs, lost })
  let isClosed = false

  const writeBook: WriteBook = (book, to, { signal, onProgress, lostPhotos = 'refuse' } = {}) =>
    new Promise((resolve) => {
      if (isClosed) return resolve(failed(CLOSING))
      if (signal?.aborted === true) return resolve(stopped)
      const { port1: line, port2 } = new MessageChannel()
      const stop = (): void => {
        const waiting = queue.indexOf(ticket)
        if (waiting === -1) return line.postMessage('stop')
        queue.splice(waiting, 1)
        ticket.answer({ ok: true, written: stopped })
      }
      const ticket: Ticket<BookJob, BookAnswer> = {
        job: { kind: 'book', book, to, photosFolder, lostPhotos, line: port2 },
        transfer: [port2],
        answer: (answer) => {
          signal?.removeEventListener('abort', stop)
          line.close()
          if (answer.ok) return resolve(answer.written)
          void clearAway(to).then(() => resolve(failed(answer.reason)))
        },
      }
      line.on('message', (progress: BookProgress) => onProgress?.(progress))
      signal?.addEventListener('abort', stop)
      queue.push(ticket)
      seat.takeNext()
    })

  return {
    writeBook,
    close: async () => {
      isClosed = true
      for (const ticket of queue.splice(0)) ticket.answer(lost(CLOSING))
      await seat.close()
    },
  }
}

const lost = (reason: string): BookAnswer => ({ ok: false, reason })

const failed = (reason: string): Result<BookWritten> =>
  refuse('not-now', `The book could not be written: ${reason}.`, 'Try again.')

/** What a worker that was ended in the middle of a book could not clear away itself. */
const clearAway = (to: string): Promise<void> => rm(partialBook(to), { force: true }).catch(() => undefined)
