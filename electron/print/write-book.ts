import { createWriteStream } from 'node:fs'
import { rename, rm, stat } from 'node:fs/promises'
import type { Writable } from 'node:stream'
import { isSystemError } from '../../db/system-error.ts'
import { ok, refuse, type Refusal, type Result } from '../../domain/refusal.ts'
import { type BookPhoto, bookPhotos, type CarBook } from '../../domain/report/car-book-shapes.ts'
import type { BookContext, LoadBookPhoto } from './book-context.ts'
import { packPages } from './book-pages.ts'
import { bookPhotoLoader } from './book-photos.ts'
import { pour } from './book-sink.ts'
import { readPrintFonts } from './fonts.ts'
import { createPhotoLoader } from './load-report-photo.ts'
import { createPaper } from './paper.ts'
import { printBook } from './print-book.ts'

/** Photos that are in the book, and how many it will have. */
export interface BookProgress {
  readonly photos: number
  readonly of: number
}

export interface BookWritten {
  readonly pages: number
  readonly photos: number
  /** Numbers of photos whose files could not be read; their places in the book say so. */
  readonly lost: readonly number[]
  readonly bytes: number
}

export interface WriteBookOptions {
  /** When aborted, the writing ends and nothing half-written is left. */
  readonly signal?: AbortSignal
  readonly onProgress?: (progress: BookProgress) => void
  /** A photo whose file cannot be read stops the book, unless its place may say so. */
  readonly lostPhotos?: 'refuse' | 'say so'
  /** Opens the file that is written to. Tests put a full disk here. */
  readonly openFile?: (path: string) => Writable
}

/**
 * Writes a car's book as a PDF, under a name ending in '.part' beside `to` until it is whole. Photos are read one row at a
 * time and never held: memory does not grow with their number. Refuses, in words, a photo that cannot be read, a disk that is full or
 * fails, and a book that was stopped; then nothing is left behind, and an earlier file at `to` stays as it was.
 */
export async function writeBook(
  book: CarBook,
  to: string,
  photosFolder: string,
  options: WriteBookOptions = {},
): Promise<Result<BookWritten>> {
  const temporary = partialBook(to)
  try {
    options.signal?.throwIfAborted()
    const written = await writePages(book, temporary, photosFolder, options)
    const { size } = await stat(temporary)
    await rename(temporary, to)
    return ok({ ...written, bytes: size })
  } catch (error) {
    await rm(temporary, { force: true }).catch(() => undefined)
    return { ok: false, refusal: refusalOf(error, options.signal) }
  }
}

/** Where a book is until it is whole; whoever ends a worker in the middle of one removes it. */
export const partialBook = (to: string): string => `${to}.part`

async function writePages(
  book: CarBook,
  path: string,
  photosFolder: string,
  { signal, onProgress, lostPhotos = 'refuse', openFile = openForGood }: WriteBookOptions,
): Promise<Omit<BookWritten, 'bytes'>> {
  const of = bookPhotos(book).length
  const paper = createPaper(await readPrintFonts(), infoOf(book))
  packPages(paper)
  const sink = pour(paper.doc, openFile(path), signal)
  let photos = 0
  const lost: number[] = []
  const load = bookPhotoLoader(createPhotoLoader(photosFolder))
  const context: BookContext = {
    paper,
    photos: noting(load, (photo) => {
      if (lostPhotos === 'refuse') throw new LostPhoto(photo)
      if (!lost.includes(photo.number)) lost.push(photo.number)
    }),
    keepUp: sink.keepUp,
    heads: new Map(),
    wrotePhoto: () => {
      photos += 1
      onProgress?.({ photos, of })
    },
  }
  try {
    const pages = await printBook(context, book)
    paper.root.end()
    paper.doc.end()
    await sink.done
    return { pages, photos, lost }
  } catch (error) {
    paper.doc.destroy()
    await sink.done.catch(() => undefined)
    throw error
  }
}

const infoOf = ({ car, shell, workshop, written }: CarBook) => ({
  title: `${car}, ${shell.toLowerCase()}: the car's file`,
  author: workshop,
  subject: `Complete, dated and photographed history of the shell, ${written}`,
  language: 'en-GB',
})

/** On the disk when it is closed. */
const openForGood = (path: string): Writable => createWriteStream(path, { flush: true })

function noting(load: LoadBookPhoto, lost: (photo: BookPhoto) => void): LoadBookPhoto {
  return async (photo, box) => {
    const prepared = await load(photo, box)
    if (prepared === null) lost(photo)
    return prepared
  }
}

class LostPhoto extends Error {
  override readonly name = 'LostPhoto'
  readonly photo: BookPhoto
  constructor(photo: BookPhoto) {
    super(`photo ${photo.number} cannot be read`)
    this.photo = photo
  }
}

/** What people are told who have stopped a book. */
export const stopped = refuse(
  'not-now',
  'The book was stopped.',
  'Nothing was written. Start it again when you want it.',
)

/** @throws what is a defect */
function refusalOf(error: unknown, signal: AbortSignal | undefined): Refusal {
  if (signal?.aborted === true) return stopped.refusal
  if (error instanceof LostPhoto)
    return refuse(
      'photo',
      `The file of photo ${error.photo.number} (${error.photo.caption}) cannot be read, so the book was not written.`,
      'Bring the photo back from the newest copy of the workshop, or make the book with its place left empty.',
    ).refusal
  if (!isSystemError(error)) throw error
  if (error.code === 'ENOSPC' || error.code === 'EDQUOT')
    return refuse(
      'storage',
      'The disk that the book goes to is full.',
      'Make room on it and make the book again. Nothing half-written was left.',
    ).refusal
  return refuse(
    'storage',
    `The book cannot be written there (${error.code}).`,
    'Check that the folder is there, that its disk is attached and that this account may write to it, then try again.',
  ).refusal
}
