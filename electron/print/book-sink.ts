import type { Readable, Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { setTimeout } from 'node:timers/promises'

export interface Sink {
  /** When all is written; fails with what the disk said. */
  readonly done: Promise<void>
  /** Waits until little is left to be written. @throws what the disk said, or the signal's reason */
  readonly keepUp: () => Promise<void>
}

/** Bytes: some photos. */
export const MOST_WAITING = 1_000_000
const SLOW_DISK_MS = 5

/** Writes what a document gives. A document that keeps up with its disk holds little in memory. */
export function pour(doc: Readable, file: Writable, signal: AbortSignal | undefined): Sink {
  const done = pipeline(doc, file, signal === undefined ? {} : { signal })
  let failure: Error | null = null
  done.catch((error: unknown) => {
    failure = error instanceof Error ? error : new Error(String(error))
  })
  return {
    done,
    keepUp: async () => {
      // Lets the stream flow, and stops and failures arrive.
      for (let wait = 0; wait === 0 || doc.readableLength > MOST_WAITING; wait = SLOW_DISK_MS) {
        await setTimeout(wait)
        if (failure !== null) throw failure
        signal?.throwIfAborted()
      }
    },
  }
}
