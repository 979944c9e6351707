import { mkdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { type Readable, Transform } from 'node:stream'
import { booksFolder } from '../../db/data-paths.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { toWeb } from '../../db/to-web.ts'
import type { Moment } from '../../domain/car.ts'
import type { Refusal, Result } from '../../domain/refusal.ts'
import type { CarFileDesk, CarFileOrder, CarFileProgress, CarFileStream } from '../api/car-file-desk.ts'
import type { WriteBook } from '../print/book-printer.ts'
import { BagProblem, refusalOrDefect, STOPPED } from './bag-problem.ts'
import { carBag, type CarBag } from './car-bag.ts'
import { writeBagArchive } from './write-bag.ts'

export interface CarFileDeskOptions {
  readonly db: ReadDatabase
  readonly writeBook: WriteBook
  /** The host's clock, epoch milliseconds. */
  readonly now: () => Moment
  /** Told of defects. */
  readonly log: (line: string) => void
}

export interface OpenCarFileDesk extends CarFileDesk {
  /** How many files are being made now. */
  readonly making: () => number
  /** Ends what is being made. */
  readonly close: () => void
}

/** Screens that went away without a word are forgotten after so many others. */
const MOST_WATCHED = 40

/**
 * Opens the desk of the host and clears the books that an earlier one was making.
 *
 * @throws the operating system's error when the data folder cannot be written
 */
export async function openCarFileDesk(options: CarFileDeskOptions): Promise<OpenCarFileDesk> {
  const scratch = await emptyScratch(options.db.dataDir)
  const making = new Map<string, Making>()
  return {
    begin: (order) => begin({ ...options, scratch, making }, order),
    progress: (watch) => making.get(watch)?.progress ?? null,
    stop: (watch) => making.get(watch)?.stopping.abort(),
    making: () => [...making.values()].filter(isUnderWay).length,
    close: () => {
      for (const { stopping } of making.values()) stopping.abort()
    },
  }
}

interface Making {
  progress: CarFileProgress
  readonly stopping: AbortController
}

function isUnderWay({ progress, stopping }: Making): boolean {
  return !stopping.signal.aborted && (progress.doing === 'book' || progress.doing === 'files')
}

interface Desk extends CarFileDeskOptions {
  readonly scratch: string
  readonly making: Map<string, Making>
}

/** What a host left there that was ended in the middle of a book goes. */
async function emptyScratch(dataDir: string | null): Promise<string> {
  if (dataDir === null) return tmpdir()
  const folder = booksFolder(dataDir)
  await rm(folder, { recursive: true, force: true })
  await mkdir(folder, { recursive: true })
  return folder
}

async function begin(desk: Desk, order: CarFileOrder): Promise<Result<CarFileStream>> {
  const making: Making = { progress: { doing: 'book', done: 0, of: 0 }, stopping: new AbortController() }
  remember(desk.making, order.watch, making)
  try {
    const made = await carBagOf(desk, order, making)
    if (!made.ok) return fail(making, made.refusal)
    const stream = order.as === 'pdf' ? await bookOf(made.value, making) : archiveOf(made.value, making)
    const name = `${made.value.name}.${order.as}`
    return { ok: true, value: { name, stream: followed(desk, stream, making) } }
  } catch (error) {
    return fail(making, wordsFor(error, desk.log))
  }
}

function remember(all: Map<string, Making>, watch: string, making: Making): void {
  all.get(watch)?.stopping.abort()
  all.delete(watch)
  all.set(watch, making)
  for (const [old, { stopping }] of [...all].slice(0, -MOST_WATCHED)) {
    stopping.abort()
    all.delete(old)
  }
}

function fail(making: Making, refusal: Refusal): { readonly ok: false; readonly refusal: Refusal } {
  making.progress = { doing: 'refused', refusal }
  return { ok: false, refusal }
}

function carBagOf(desk: Desk, { carId, choices }: CarFileOrder, making: Making): Promise<Result<CarBag>> {
  return carBag(desk.db, carId, {
    choices,
    now: desk.now(),
    scratch: desk.scratch,
    makeBook: (book, to) =>
      desk.writeBook(book, to, {
        signal: making.stopping.signal,
        onProgress: ({ photos, of }) => {
          making.progress = { doing: 'book', done: photos, of }
        },
      }),
  })
}

function archiveOf({ bag, name, bytes: of }: CarBag, making: Making): Readable {
  return writeBagArchive(bag, name, {
    signal: making.stopping.signal,
    onProgress: ({ bytes }) => {
      making.progress = { doing: 'files', done: bytes, of }
    },
  })
}

async function bookOf({ book }: CarBag, making: Making): Promise<Readable> {
  const content = await book.open()
  making.stopping.signal.addEventListener('abort', () => content.destroy(new BagProblem(STOPPED)))
  return content
}

/** The stream as the web has it, with its end told to whoever follows it. */
function followed({ log }: Desk, content: Readable, making: Making): CarFileStream['stream'] {
  let bytes = 0
  const out = new Transform({
    transform(chunk: Buffer, _encoding, done) {
      bytes += chunk.byteLength
      done(null, chunk)
    },
  })
  content.once('error', (error: unknown) => out.destroy(unfinished(fail(making, wordsFor(error, log)))))
  out.once('end', () => {
    making.progress = { doing: 'finished', bytes }
  })
  out.once('close', () => {
    content.destroy()
    if (!isOver(making)) fail(making, STOPPED)
  })
  return toWeb(content.pipe(out))
}

const isOver = ({ progress: { doing } }: Making): boolean => doing === 'finished' || doing === 'refused'

/** Breaks the connection. The server prints it: one line, without a name. */
function unfinished({ refusal }: { readonly refusal: Refusal }): Error {
  const error = new Error(`The file of a car was not finished (${refusal.code}).`)
  error.stack = error.message
  return error
}

const wordsFor = (error: unknown, log: (line: string) => void): Refusal =>
  refusalOrDefect(error, DEFECT, (words) => log(`A car's file: ${words}`))

const DEFECT: Refusal = {
  code: 'storage',
  message: 'Something went wrong in Panelwright itself, so the file was not finished.',
  next: 'Try again. If it stays so, look at the window where Panelwright was started and report what it says.',
}
