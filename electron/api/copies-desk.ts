import type { Moment } from '../../domain/car.ts'
import type { CopyWarning } from '../../domain/copies/copy-age.ts'
import type { CopySchedule } from '../../domain/copies/copy-schedule.ts'
import type { CopiesSet, CopyRecord, RestoredFrom } from '../../domain/copies/copy-settings.ts'
import type { ListedCopy } from '../../domain/copies/copy-shapes.ts'
import type { Result } from '../../domain/refusal.ts'

/** What is done now with copies; files are counted where `of` is not 0. */
export type CopyDoing =
  | { readonly kind: 'nothing' }
  | {
      readonly kind: 'copying' | 'verifying'
      readonly words: string
      readonly done: number
      readonly of: number
    }

/** What reading all of a copy came to. */
export interface VerifiedView {
  /** When the copy was made. */
  readonly made: Moment
  /** What is wrong with it, in words; null when it is as it was made. */
  readonly problem: string | null
}

export interface CopiesState {
  /** Null while nothing is set on this computer. */
  readonly set: Omit<CopiesSet, 'since' | 'isKnown'> | null
  readonly record: CopyRecord
  readonly doing: CopyDoing
  /** The last one of this run. */
  readonly verified: VerifiedView | null
  readonly warning: CopyWarning | null
  /** That this workshop was restored, until a manager has read it. */
  readonly restored: RestoredFrom | null
  /** Why the list of erased contacts beside the copies is not up to date, in words. */
  readonly unlisted: string | null
}

export interface CopyThere extends ListedCopy {
  /** Sealed with another passphrase than the one that this computer keeps a key of. */
  readonly needsPassphrase: boolean
}

export interface CopiesAsked {
  readonly folder: string
  readonly schedule: CopySchedule | null
  readonly warnAfterDays: number
  /** Seals copies from now on; 'as before' goes on with the passphrase that was set, null seals none. */
  readonly passphrase: string | null | { readonly kind: 'as before' }
}

/** Copies of one workshop that lie in a folder. */
export interface FoundWorkshop {
  /** Its folder, absolute. */
  readonly folder: string
  readonly copies: readonly ListedCopy[]
}

export interface RestoreAsked {
  /** Of one workshop, as it was found. */
  readonly folder: string
  readonly stamp: string
  readonly passphrase: string | null
}

/** Copies of the workshop, beside the work that goes on. */
export interface CopiesDesk {
  readonly state: () => CopiesState
  /** Those in the folder that is set, the newest first. */
  readonly list: () => Promise<Result<readonly CopyThere[]>>
  readonly set: (asked: CopiesAsked) => Promise<Result<true>>
  /** Begins a copy; how it goes stands in the state. */
  readonly start: () => Result<true>
  /** Begins to read all of a copy. @param passphrase of one that the key of this computer does not open; else null */
  readonly verify: (stamp: string, passphrase: string | null) => Result<true>
  /** Ends what is under way; what is whole stays. */
  readonly stop: () => void
  /** Begins a copy when one is due. */
  readonly look: () => Promise<void>
  /** Sees to it at once that nothing of an erased contact stays; `look` goes on where that has to wait. */
  readonly erased: () => Promise<void>
  /** A manager has read what there was to know of the restore. */
  readonly restoreRead: () => Result<true>
  /** Has `listener` called after each copy, whatever became of it. */
  readonly onCopied: (listener: () => void) => void

  /** What can be restored from a folder of this computer. */
  readonly found: (folder: string) => Promise<Result<readonly FoundWorkshop[]>>
  /** Restores into the empty data folder. @returns the workshop's name */
  readonly restore: (asked: RestoreAsked) => Promise<Result<string>>
  /** What is done now, in words; null when nothing is restored. */
  readonly restoring: () => string | null
  readonly stopRestoring: () => void
}
