import type { Moment } from '../car.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import type { PersonId, RepairId } from '../ids.ts'
import type { WorkshopState } from '../workshop.ts'

/** A reason why a gate or task cannot be passed yet. */
export interface Hold {
  readonly code: HoldCode
  /** What is held against, so that one release lifts one hold: a repair, a part, a group, an ask ... */
  readonly subject: string
  readonly words: string
  /** Who can clear it, in words. */
  readonly clearedBy: string
  /** When time alone clears it. */
  readonly until: Moment | null
  readonly releasable: boolean
  readonly otherRepair: RepairId | null
}

export interface HoldContext {
  /** The time done that the signer states: evidence, curing and windows are judged by it. */
  readonly at: Moment
  readonly workshop: WorkshopState
  /** Those who did the work; null asks for the holds that stand whoever does it. */
  readonly did: readonly PersonId[] | null
}

/** 'order' and 'closed in order' are never released; a shell that is away cannot be worked on whatever anybody says. */
const NEVER_RELEASED: ReadonlySet<HoldCode> = new Set(['order', 'closed in order', 'away'])

export const hold = (
  code: HoldCode,
  subject: string,
  words: string,
  clearedBy: string,
  more: { readonly until?: Moment; readonly otherRepair?: RepairId; readonly releasable?: boolean } = {},
): Hold => ({
  code,
  subject,
  words,
  clearedBy,
  until: more.until ?? null,
  releasable: more.releasable ?? !NEVER_RELEASED.has(code),
  otherRepair: more.otherRepair ?? null,
})
