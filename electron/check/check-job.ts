import type { CheckProgress } from '../../db/check.ts'
import type { CheckFinding } from '../../db/check-finding.ts'

/** What the worker is started with. */
export interface CheckJob {
  readonly dataDir: string
  /** Epoch milliseconds; see `checkFolder`. */
  readonly leftBefore: number
}

/** What it tells: how far it is, a few times a second, and what it has found or why it could not go on. */
export type FromCheckWorker =
  | { readonly kind: 'progress'; readonly progress: CheckProgress }
  | { readonly kind: 'found'; readonly findings: readonly CheckFinding[] }
  | { readonly kind: 'failed'; readonly words: string }
