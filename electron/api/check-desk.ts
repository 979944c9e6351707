import type { Moment } from '../../domain/car.ts'
import type { Result } from '../../domain/refusal.ts'
import type { LastCheck } from '../../domain/views/last-check.ts'

/** What is done now: a part in words, and how far it is where it has a countable length. */
export type CheckDoing =
  | { readonly kind: 'nothing' }
  | {
      readonly kind: 'checking'
      readonly since: Moment
      readonly words: string
      readonly parts: DoneOf | null
    }
  | { readonly kind: 'mending'; readonly parts: DoneOf }

export interface DoneOf {
  /** When this part began. */
  readonly since: Moment
  readonly done: number
  readonly count: number
}

export interface CheckState {
  readonly doing: CheckDoing
  /** Null before the first. */
  readonly last: LastCheck | null
  /** How many findings of this run's last check can be mended; 0 after a new start, until it is checked again. */
  readonly mendable: number
  /** Where copies of this workshop are made; null while none are. */
  readonly copiesFolder: string | null
}

/** Verifies the workshop's folder beside the work that goes on, and mends what can be made again. */
export interface CheckDesk {
  readonly state: () => CheckState
  readonly start: () => Result<true>
  /** Ends a check under way; what the one before it found stays. */
  readonly stop: () => void
  /** @param from folder of copies to take damaged files from; null to take none */
  readonly mend: (from: string | null) => Promise<Result<true>>
}
