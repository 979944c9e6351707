import type { EntryState, Moment } from '../car.ts'
import type { Decision, Grade, Payer, Zone } from '../facts/shapes.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { AttachmentId, FitGroupId, LayerId, PersonId, RepairId } from '../ids.ts'
import type { PhotoMarks } from '../photo-marks/photo-marks.ts'

/** Names by person and party id, from the contact book. */
export type NameOf = (id: string) => string

export interface HoldView {
  readonly code: HoldCode
  /** What exactly is held against: a part, a repair, a task ...; with the code it names the hold. */
  readonly subject: string
  readonly words: string
  /** Who can clear it, in words: 'the technician', 'the manager', 'the owner', 'time'. */
  readonly clearedBy: string
  /** When time alone clears it. */
  readonly until: Moment | null
  readonly releasable: boolean
  /** Work on this very gate clears it: evidence still to bring, a fit-up still to make. A gate held by nothing else may be worked on. */
  readonly broughtByWork: boolean
  readonly released: { readonly by: string; readonly reason: string } | null
  /** The repair on the other end of the hold, so that a drawing can put the bar where it bites. */
  readonly otherRepair: RepairId | null
}

export type MarkKind = 'passed' | 'next' | 'held' | 'later' | 'not needed' | 'as found'

export interface GateMark {
  readonly gate: Gate
  readonly mark: MarkKind
  readonly done: Moment | null
  readonly by: string | null
}

export interface HoursPair {
  /** Agreed figures of the accepted estimate and of accepted variations, less hours given back. */
  readonly authorised: number
  /** Estimated but not accepted by its payer yet. */
  readonly waiting: number
  readonly earned: number
  readonly spent: number
  readonly rework: number
  /** Left the authorised hours: of gates not needed, left at closed as found, or unspent on a retired repair. */
  readonly givenBack: number
}

/** What people said is still to do on a gate or task. */
export interface LeftView {
  /** Person-hours; 0 when only the signature is left. */
  readonly hours: number
  readonly at: Moment
  readonly by: string
}

export type LayerStateWord = 'not seen yet' | 'found' | 'repaired' | 'coated' | 'closed over'

export interface SectionLayer {
  readonly id: LayerId
  readonly name: string
  readonly thicknessMm: number
  readonly loadBearing: boolean
  readonly closing: boolean
  readonly grade: Grade | 'not seen' | null
  readonly judgedBy: string | null
  readonly remainingMm: number | null
  readonly decision: Decision | null
  readonly state: LayerStateWord
  readonly photographed: boolean
}

/** The drawing of a repair cut through its layers, innermost first. */
export interface SectionView {
  readonly layers: readonly SectionLayer[]
  readonly open: boolean
  readonly sealed: boolean
  readonly primed: boolean
  readonly painted: boolean
}

export interface RepairCard {
  readonly id: RepairId
  readonly name: string
  readonly zone: Zone
  readonly onPart: boolean
  readonly loadBearing: boolean
  readonly outer: boolean
  readonly payer: Payer
  readonly marks: readonly GateMark[]
  readonly next: Gate | null
  /** Holds on the next gate that are not released. */
  readonly holds: readonly HoldView[]
  readonly hours: HoursPair
  /** 0 for repairs that nothing covers; deeper ones are covered by the shallower. */
  readonly depth: number
  readonly standsOpen: boolean
  readonly finished: boolean
  readonly closedAsFound: boolean
  readonly retired: boolean
  /** A standing fault, like 'closed over unfinished work'. */
  readonly faults: readonly string[]
}

export interface PhotoView {
  readonly attachmentId: AttachmentId
  readonly sha256: string
  readonly caption: string
  readonly marks: PhotoMarks
  readonly taken: Moment
  readonly cameraDated: boolean
  readonly by: string
  readonly serves: readonly {
    readonly repairId: RepairId | null
    readonly repairName: string
    readonly gate: Gate | null
    readonly layerId: LayerId | null
    readonly shows: string
  }[]
}

export interface CoverView {
  readonly over: RepairId
  readonly under: RepairId
  /** The covering panel may not close yet. */
  readonly barred: boolean
  readonly words: string
}

export interface FitGroupView {
  readonly id: FitGroupId
  readonly name: string
  readonly members: readonly {
    readonly id: RepairId
    readonly name: string
    readonly ready: boolean
    readonly why: string
  }[]
  readonly hungParts: readonly string[]
  readonly edges: readonly EdgeView[]
  readonly fitUps: readonly FitUpView[]
  readonly good: boolean
  readonly stale: boolean
}

export interface EdgeView {
  readonly edgeId: string
  readonly name: string
  readonly nominalMm: number
  readonly toleranceMm: number
  readonly flushToleranceMm: number
  readonly last: {
    readonly gapsMm: readonly number[]
    readonly minMm: number
    readonly maxMm: number
    readonly meanMm: number
    readonly taperMm: number
    readonly flushMm: number
    readonly inside: boolean
    readonly words: string
  } | null
}

export interface FitUpView {
  readonly at: Moment
  readonly by: string
  readonly kind: 'dry' | 'full' | 'check'
  readonly good: boolean
  readonly stale: boolean
  readonly words: string
}

export interface ClockView {
  readonly entryId: string
  readonly personId: PersonId
  readonly person: string
  readonly carId: string | null
  readonly carName: string
  readonly what: string
  readonly on: EntryState['on']
  /** Done again: of a gate or task that was passed before, or of one that was reopened. */
  readonly rework: boolean
  /** Each gate or task that it runs on, in the entry's order, with its share by the estimates; none for the workshop itself. */
  readonly parts: readonly { readonly words: string; readonly share: number }[]
  readonly since: Moment
  readonly hotWork: boolean
  /** Past the end of the person's day: counted only to that end until confirmed. */
  readonly pastDayEnd: boolean
  readonly countsTo: Moment
  /** Null while it runs; a stopped clock is listed only until its end is confirmed. */
  readonly stoppedAt: Moment | null
}

export interface WatchView {
  readonly entryId: string
  /** Null for hot work on the workshop itself. */
  readonly carId: string | null
  readonly carName: string
  readonly what: string
  readonly person: string
  readonly bay: string
  readonly from: Moment
  readonly ends: Moment
  /** True when the time is over and somebody may confirm that nothing smoulders. */
  readonly over: boolean
}
