import type { Handle } from './handle.ts'
import { createStateCache, type StateCache } from './state-cache.ts'

/** What reads need: a connection that cannot write, and the states folded so far. */
export interface ReadDatabase {
  /** Null for a database in memory. */
  readonly dataDir: string | null
  readonly reader: Handle
  readonly cache: StateCache
  readonly close: () => void
}

/** The host's database: the one writer. */
export interface Database extends ReadDatabase {
  readonly writer: Handle
  /** Kept outside all copies; see code-key.ts. */
  readonly codeKey: Uint8Array
  /** What trying a code costs that is set from now on: scrypt's N, a power of two. */
  readonly codeCost: number
  /** To be called after facts were committed; see journal-end.ts. */
  readonly noteEnd: () => void
}

/** What reads need of a connection that somebody else opens and closes. */
export const readingOn = (reader: Handle): ReadDatabase => ({
  dataDir: null,
  reader,
  cache: createStateCache(),
  close: () => {},
})
