import type { Moment, TargetStanding } from '../car.ts'
import type { Payer, ReworkCause, WorkTarget } from '../facts/shapes.ts'
import type { EntryId, PersonId, RepairId, TaskId } from '../ids.ts'

/** What went another way than it was agreed or is usual, and somebody can still put right. Hours are person-hours. */
export type Warning = NotAuthorised | ClockPastDay | OverAuthorised | Overrun | HoursAfterEnd

interface Began {
  /** Names the warning among those of one car. */
  readonly key: string
  /** Local date since which it has been so. */
  readonly since: string
  /** Of warnings of one kind the one with the most hours is the worst. */
  readonly hours: number
}

/** Hours on a gate or task that nobody has agreed to pay. */
export interface NotAuthorised extends Began {
  readonly kind: 'not authorised'
  readonly target: WorkTarget
  readonly why: WhyNotAuthorised
}

export type WhyNotAuthorised =
  | { readonly is: 'not estimated' }
  | { readonly is: 'estimate waits'; readonly payer: Payer }
  | {
      readonly is: 'variation waits' | 'declined' | 'stopped'
      readonly title: string
      readonly payer: Payer
    }

/** A clock that ran past the end of its person's day; `hours` are those that do not count yet. */
export interface ClockPastDay extends Began {
  readonly kind: 'clock'
  readonly entryId: EntryId
  readonly personId: PersonId
  readonly countsTo: Moment
  /** Null while it runs. */
  readonly stoppedAt: Moment | null
}

/** A car or an unfinished repair that is expected to take more than is authorised; `hours` are those beyond. */
export interface OverAuthorised extends Began {
  readonly kind: 'over authorised'
  /** Null for the whole car, whose repairs then have no warning of their own. */
  readonly repairId: RepairId | null
  readonly expected: number
  readonly authorised: number
  /** Of a car: where the hours beyond are expected, most first. */
  readonly parts: readonly OverPart[]
}

export interface OverPart {
  readonly of: { readonly repairId: RepairId } | { readonly taskId: TaskId }
  readonly hours: number
}

/** An open gate or task whose hours, with what is said to be left, pass its 80 % mark; `hours` are those beyond. */
export interface Overrun extends Began {
  readonly kind: 'overrun'
  readonly target: WorkTarget
  readonly spent: number
  /** As it was said; null when nobody has. */
  readonly left: number | null
  readonly mark: number
}

/** Hours of the last days on what was passed, or needs no work any more. */
export interface HoursAfterEnd extends Began {
  readonly kind: 'after the end'
  readonly target: WorkTarget
  readonly standing: Exclude<TargetStanding, 'open'>
  /** Who logged the last of them. */
  readonly personId: PersonId
  /** What was said of passed work, each once; no cause counts for other work. */
  readonly causes: readonly (ReworkCause | 'not stated')[]
}

/** Worst first: money that may never come, hours that do not count, then what is going astray, then what went. */
const KINDS: readonly Warning['kind'][] = [
  'not authorised',
  'clock',
  'over authorised',
  'overrun',
  'after the end',
]

/** For sorting: by kind, then the most hours, then the oldest. */
export const byWorst = (a: Warning, b: Warning): number =>
  KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || b.hours - a.hours || a.since.localeCompare(b.since)
