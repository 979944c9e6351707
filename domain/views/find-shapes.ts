import type { Moment } from '../car.ts'
import type { AttachmentId, CarId, RepairId } from '../ids.ts'

const FOUND_KINDS = ['car', 'owner', 'repair', 'photo', 'note'] as const
export type FoundKind = (typeof FOUND_KINDS)[number]

/** More nobody types into a search. */
export const MOST_LETTERS = 200

/** What a search has found, in words, with what it takes to go there. */
export interface Found {
  /** Among those of its kind. */
  readonly id: string
  readonly words: string
  /** What it is of, and when. */
  readonly beside: string
  /** Null for somebody who has no car here. */
  readonly carId: CarId | null
  readonly repairId: RepairId | null
  readonly attachmentId: AttachmentId | null
  /** Of the photo's original. */
  readonly sha256: string | null
  /** Number of the line in the car's record. */
  readonly line: number | null
  readonly at: Moment | null
}

export interface FoundGroup {
  readonly kind: FoundKind
  /** The best first. */
  readonly found: readonly Found[]
  /** How many more there are. */
  readonly more: number
  /** There may be more than that. */
  readonly isAtLeast: boolean
}

/** Groups in a set order; only those of which something was found. */
export interface FindView {
  readonly groups: readonly FoundGroup[]
}
