import type { Moment } from '../../car.ts'
import type { ThreePoint, WorkTarget } from '../../facts/shapes.ts'
import type { BayId, BookingId, CarId, PersonId, RepairId, VisitId } from '../../ids.ts'
import type { PlanFault, StartReason } from '../plan.ts'
import type { Problem } from '../problem.ts'

/** A problem with what its numbers stand for, so that an answer can be read back. */
export interface BuiltProblem {
  readonly problem: Problem
  /** Epoch ms of tick 0: now, rounded up to a tick. */
  readonly origin: Moment
  /** By activity. */
  readonly work: readonly BuiltWork[]
  /** By car. Cars that are not in work are there for their bookings only and come last. */
  readonly carIds: readonly CarId[]
  readonly visitIds: readonly (VisitId | null)[]
  readonly bayIds: readonly BayId[]
  readonly personIds: readonly PersonId[]
  /** By car and booking. */
  readonly bookingIds: readonly (readonly BookingId[])[]
  /** Cars of which some work was left out, by number. */
  readonly incomplete: ReadonlySet<number>
  /** What was left out or not taken as pinned. */
  readonly faults: readonly PlanFault[]
}

/** What an activity stands for. */
export interface BuiltWork {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly target: WorkTarget
  /** Null for a task. */
  readonly repairId: RepairId | null
  /** 'Sill, left: welded', or the task's name. */
  readonly name: string
  /** Person-hours that are left. */
  readonly hours: number
  readonly begun: boolean
  readonly pinned: { readonly people: boolean; readonly day: boolean }
  /** Person-hours that are left, at three points. */
  readonly points: ThreePoint
  /** Whether what its repair hides is known; true for a task. */
  readonly assessed: boolean
  /** What keeps it from starting, apart from other work, people and bays. */
  readonly earliest: readonly EarliestStart[]
}

export interface EarliestStart {
  readonly tick: number
  readonly reason: StartReason
  /** A whole sentence: 'Outer skin: ordered, expected Thu 26 Nov.' */
  readonly words: string
}
