import { closeSync, constants, mkdirSync, openSync, readFileSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'
import { eq } from 'drizzle-orm'
import { lastLine } from './chains.ts'
import type { Handle } from './handle.ts'
import { journal } from './schema.ts'
import { isSystemError } from './system-error.ts'

/** The last line of a journal: its number and hash. */
export interface JournalEnd {
  /** 0 before the first line. */
  readonly number: number
  readonly hash: string
}

/**
 * Remembers beside the database how far its journal has come. SQLite does not notice when its write-ahead log is deleted, or
 * an older file is put in its place: the database is sound then, and what was recorded last is gone.
 */
export interface EndKeeper {
  /** To be called after what was recorded is on the disk, so that this is never ahead of it. */
  readonly note: () => void
  readonly close: () => void
}

/**
 * One record of one length, written over in place without a sync: it needs no room on a full disk and costs some microseconds,
 * outlives a kill, and after a power cut it may be behind, which is harmless.
 */
export function openEndKeeper(path: string, writer: Handle): EndKeeper {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
  const file = openSync(path, constants.O_RDWR | constants.O_CREAT, 0o600)
  let isOpen = true
  const note = (): void => {
    if (!isOpen) return
    const { number, hash } = lastLine(writer) ?? NOTHING
    try {
      writeSync(file, recordOf({ number, hash }), 0, 'latin1')
    } catch (error) {
      // The disk has gone or may not be written to; what was recorded is recorded.
      if (!isSystemError(error)) throw error
    }
  }
  note()
  const close = (): void => {
    // The number of a closed file may be another one's by now.
    if (isOpen) closeSync(file)
    isOpen = false
  }
  return { note, close }
}

/** Null when nothing was remembered, or not legibly. */
export function readJournalEnd(path: string): JournalEnd | null {
  try {
    const found = RECORD.exec(readFileSync(path, 'latin1'))
    return found === null ? null : { number: Number(found[1]), hash: found[2] ?? '' }
  } catch (error) {
    if (isSystemError(error)) return null
    throw error
  }
}

/** What is wrong with a journal that had come to `end`, in words; null when it has that line. */
export function missingEnd(handle: Handle, end: JournalEnd): string | null {
  if (end.number === 0) return null
  const ofNumber = eq(journal.number, end.number)
  const line = handle.orm.select({ hash: journal.hash }).from(journal).where(ofNumber).get()
  if (line?.hash === end.hash) return null
  if (line !== undefined) return `Line ${end.number} of the journal is not the one that was recorded here.`
  const last = lastLine(handle)?.number ?? 0
  return `The journal ends at line ${last}, but line ${end.number} was recorded here.`
}

const NOTHING: JournalEnd = { number: 0, hash: '' }

const recordOf = ({ number, hash }: JournalEnd): string =>
  `${String(number).padStart(12, '0')} ${hash.padEnd(64, '-')}\n`

const RECORD = /^(\d{12}) ([0-9a-f]{64}|-{64})\n$/
