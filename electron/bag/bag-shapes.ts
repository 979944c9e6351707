import type { Readable } from 'node:stream'
import type { Result } from '../../domain/refusal.ts'

/*
 * Bags as RFC 8493 (BagIt 1.0) describes them: a folder, or one `.zip` that holds the folder, with the payload under
 * `data/` and a SHA-256 of every file.
 */

/** One file of the payload. Its content is asked for once, when its turn comes, and is never held as a whole. */
export interface BagEntry {
  /** Below `data/`, with `/` between its parts: 'photos/0a1b.jpg'. */
  readonly path: string
  /** @throws what stops the writing, like a missing original */
  readonly open: () => Promise<Readable> | Readable
}

/** Lines of `bag-info.txt` in order; labels may repeat. */
export type BagInfo = readonly (readonly [label: string, value: string])[]

export interface BagToWrite {
  readonly info: BagInfo
  readonly entries: Iterable<BagEntry> | AsyncIterable<BagEntry>
}

export interface BagProgress {
  readonly files: number
  readonly bytes: number
}

export interface WriteBagOptions {
  readonly onProgress?: (progress: BagProgress) => void
  /** When aborted, the writing ends and nothing half-written is left. */
  readonly signal?: AbortSignal
}

/** A bag that is whole: every file is listed, is there, and has its digest; nothing else is there. */
export interface OpenBag {
  readonly info: BagInfo
  /** SHA-256 of the manifest of the payload, which tells this bag from every other. */
  readonly manifest: string
  /** Payload paths below `data/` with their size in bytes and SHA-256. */
  readonly files: ReadonlyMap<string, { readonly bytes: number; readonly sha256: string }>
  /** @throws when there is no such file */
  readonly read: (path: string) => Promise<Readable>
  readonly readText: (path: string, mostBytes: number) => Promise<Result<string>>
  readonly close: () => Promise<void>
}

/** What is taken of a bag at the most; one that has more is refused. */
export interface BagLimits {
  readonly mostFiles: number
  readonly mostBytes: number
}
