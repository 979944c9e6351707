import type { Moment } from '../car.ts'
import type { OneSided } from '../estimate/learned-ratios.ts'
import type { Payer, ReworkCause } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'
import type { EntryId, RepairId, TaskId } from '../ids.ts'
import type { AttentionGroup } from './attention-shapes.ts'
import type { HoursPair } from './shared-views.ts'

/** The hours of a car's visit that goes on, as they stand now: running clocks count. Person-hours. */
export interface HoursSheetView {
  readonly now: Moment
  /** What goes astray on this car. */
  readonly attention: readonly AttentionGroup[]
  readonly total: HoursFigures
  /** Those who pay for any of it; their figures add up to the total, but for the bands. */
  readonly payers: readonly PayerHours[]
  readonly works: readonly WorkHours[]
  /** What the bands rest on, in a sentence. */
  readonly rests: string
}

/** What is not exceeded with a likelihood of 50 and of 80 %. */
export type HoursBand = Pick<OneSided, 'p50' | 'p80'>

export interface HoursFigures {
  readonly hours: HoursPair
  /** EAC of the authorised work: spent and what is still to do. */
  readonly expected: number
  /** What it takes as a whole, with what is spent; null where nothing is left to guess or nothing is estimated. */
  readonly band: HoursBand | null
  /** CV = EV - AC */
  readonly variance: number
  /** CPI = EV / AC; null when nothing is spent. */
  readonly index: number | null
}

export interface PayerHours extends HoursFigures {
  readonly payer: Payer
}

/** A repair or a task. */
export interface WorkHours extends HoursFigures {
  readonly key: string
  /** Null for a task. */
  readonly repairId: RepairId | null
  readonly taskId: TaskId | null
  readonly name: string
  readonly baseline: number
  readonly payers: readonly Payer[]
  /** In the repair's order; empty for a task. */
  readonly gates: readonly GateHours[]
  /** Of a task, the latest first; those of a repair stand at its gates. */
  readonly entries: readonly HoursEntry[]
}

export interface GateHours extends HoursFigures {
  readonly gate: Gate
  readonly baseline: number
  readonly status: 'open' | 'passed' | 'not needed'
  /** Last said to be still to do; null when nothing was. */
  readonly left: number | null
  /** The latest first. */
  readonly entries: readonly HoursEntry[]
}

/** The part of an entry that lies on one gate or task. */
export interface HoursEntry {
  readonly entryId: EntryId
  readonly person: string
  /** Local date. */
  readonly date: string
  /** Null for hours of a whole day. */
  readonly start: Moment | null
  readonly end: Moment | null
  readonly hours: number
  /** The whole entry: more where it lies on other gates or tasks too. */
  readonly ofHours: number
  readonly running: boolean
  readonly confirmed: boolean
  readonly byHand: boolean
  /** Null when the hours are no rework. */
  readonly rework: ReworkCause | 'not stated' | null
}
