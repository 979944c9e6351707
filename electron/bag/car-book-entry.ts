import { createReadStream } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { join } from 'node:path'
import type { Readable } from 'node:stream'
import type { Result } from '../../domain/refusal.ts'
import type { CarBook } from '../../domain/report/car-book-shapes.ts'
import { CAR_FILE_PATHS } from '../../domain/report/car-file-shapes.ts'
import { BagProblem } from './bag-problem.ts'
import type { BagEntry } from './bag-shapes.ts'

/** Writes a book to a new file at `to`; refuses in words, and then leaves nothing there. */
export type MakeBook = (book: CarBook, to: string) => Promise<Result<unknown>>

/** The book in a bag: made in a folder of its own when its turn comes, which goes when it has been read. */
export function bookEntry(book: CarBook, makeBook: MakeBook, scratch: string): BagEntry {
  return { path: CAR_FILE_PATHS.book, open: () => openBook(book, makeBook, scratch) }
}

async function openBook(book: CarBook, makeBook: MakeBook, scratch: string): Promise<Readable> {
  const folder = await mkdtemp(join(scratch, '.panelwright-book-'))
  const clear = () => rm(folder, { recursive: true, force: true }).catch(() => undefined)
  const to = join(folder, 'book.pdf')
  try {
    const made = await makeBook(book, to)
    if (!made.ok) throw new BagProblem(made.refusal)
  } catch (error) {
    await clear()
    throw error
  }
  const content = createReadStream(to)
  content.once('close', () => void clear())
  return content
}
