import type { Result } from '../../domain/refusal.ts'
import type { CopyMade, CopyProgress } from './make-copy.ts'
import type { CopyStore } from './copy-paths.ts'
import type { VerifiedCopy } from './verify-copy.ts'

/** What the worker is started with. */
export type CopyWorkerJob =
  | {
      readonly kind: 'copy'
      readonly dataDir: string
      readonly folder: string
      readonly isSealed: boolean
      readonly isKnown: boolean
      readonly now: number
    }
  | {
      readonly kind: 'verify'
      readonly dataDir: string
      readonly store: CopyStore
      readonly stamp: string
      readonly passphrase: string | null
    }

export type FromCopyWorker =
  | { readonly kind: 'progress'; readonly progress: CopyProgress }
  | { readonly kind: 'copied'; readonly result: Result<CopyMade> }
  | { readonly kind: 'verified'; readonly result: Result<VerifiedCopy> }
