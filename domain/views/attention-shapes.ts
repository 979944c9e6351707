import type { CarId, PersonId, RepairId } from '../ids.ts'
import type { ClockView } from './shared-views.ts'

/** Warnings of one kind, worst first; the kinds stand worst first too. */
export interface AttentionGroup {
  readonly title: string
  readonly lines: readonly AttentionLine[]
}

export interface AttentionLine {
  readonly key: string
  /** Whose it is: a car's name, or the workshop's for time on the workshop itself. */
  readonly carName: string
  /** What is so, as a sentence. */
  readonly words: string
  /** What to do about it, as a sentence. */
  readonly todo: string
  /** Local date since which it has been so. */
  readonly since: string
  readonly way: AttentionWay
}

/** Where it is put right. */
export type AttentionWay =
  | { readonly to: 'clock'; readonly clock: ClockView }
  | { readonly to: 'repair'; readonly carId: CarId; readonly repairId: RepairId }
  | {
      readonly to: 'sheet'
      readonly carId: CarId
      readonly sheet: 'map' | 'estimate' | 'hours' | 'decisions'
    }
  | { readonly to: 'day sheet'; readonly personId: PersonId }
