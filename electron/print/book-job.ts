import type { MessagePort } from 'node:worker_threads'
import type { Result } from '../../domain/refusal.ts'
import type { CarBook } from '../../domain/report/car-book-shapes.ts'
import type { BookWritten, WriteBookOptions } from './write-book.ts'

/** A book that the print worker writes to a file. */
export interface BookJob {
  readonly kind: 'book'
  readonly book: CarBook
  readonly to: string
  readonly photosFolder: string
  readonly lostPhotos: NonNullable<WriteBookOptions['lostPhotos']>
  /** The worker tells its progress here, as a BookProgress; any message to the worker stops the book. */
  readonly line: MessagePort
}

/** Not ok is a defect, or a worker that was lost. */
export type BookAnswer =
  | { readonly ok: true; readonly written: Result<BookWritten> }
  | { readonly ok: false; readonly reason: string }
