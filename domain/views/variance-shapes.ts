/**
 * What the Variance screen shows. Everything is in person-hours unless it says otherwise; null is undefined (a division by
 * zero, or nothing to compare with). BAC, PV, EV, AC, EAC are the published terms of earned value: authorised, planned by
 * now, earned, spent, and expected at completion. Schedules are in weeks of the plan (earned schedule, Lipke 2003).
 */
import type { Moment } from '../car.ts'
import type { ReworkCause } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'
import type { CarId, EntryId, PersonId, RepairId, TaskId, VisitId } from '../ids.ts'
import type { EarnedSchedule } from '../value/earned-value.ts'
import type { DrillGrouping, Grouping } from '../value/variance-groups.ts'
import type { HoursPair } from './shared-views.ts'

/** The figures of one group of hours. */
export interface VarianceFiguresView {
  readonly baseline: number
  readonly hours: HoursPair
  /** EAC of the authorised work: spent and what is left. */
  readonly expected: number
  /** VAC = BAC - EAC: below 0 more is spent and expected than is authorised. */
  readonly atCompletion: number
  /** Spent between the release of a hold on a gate and its passing. */
  readonly onReleased: number
  /** The part of spent on gates and tasks that are still open: it has earned nothing yet. */
  readonly spentOnOpen: number
  /** CV = EV - AC */
  readonly variance: number
  /** CPI = EV / AC; null when nothing is spent. */
  readonly index: number | null
  /** PV to today's end. */
  readonly planned: number
  /** SV = EV - PV of the work that has a planned value; null where none has. */
  readonly scheduleVariance: number | null
  /** SPI = EV / PV of that work; null where nothing is planned by now. */
  readonly scheduleIndex: number | null
}

export interface VarianceLine extends VarianceFiguresView {
  /** With the grouping, what a drill-down asks for. */
  readonly key: string
  readonly name: string
  readonly carId: CarId | null
}

export interface VisitVarianceLine extends VarianceLine {
  readonly carId: CarId
  readonly visitId: VisitId
  /** Now, or as it ended, in weeks of the plan; null without a plan and before its first week. */
  readonly schedule: EarnedSchedule | null
}

export interface VarianceView {
  readonly total: VarianceFiguresView
  readonly byCar: readonly VisitVarianceLine[]
  readonly byType: readonly VarianceLine[]
  readonly byGate: readonly VarianceLine[]
  readonly byZone: readonly VarianceLine[]
  readonly byMonth: readonly VarianceLine[]
  /** Null when the person signed in may see none. */
  readonly byPerson: readonly VarianceLine[] | null
  /** Most hours first; `cause` is the key of a drill-down by cause. */
  readonly rework: readonly { readonly cause: string; readonly hours: number }[]
  /** Where hours are lost, and why: the largest first, a few. */
  readonly losses: readonly VarianceLoss[]
  /** What the figures of a grouping compare, in a sentence to stand above them. */
  readonly compares: Readonly<Record<Grouping, string>>
}

export interface VarianceLoss {
  readonly grouping: 'type' | 'gate' | 'cause'
  readonly key: string
  readonly name: string
  /** More spent and expected than authorised; of a cause, its rework. */
  readonly hours: number
  /** A sentence with its figures: 'Welded takes 14.0 h more than the 60.0 h authorised; ...'. */
  readonly words: string
}

/** The visits that make up one figure, worst first. */
export interface VarianceDrill {
  readonly grouping: DrillGrouping
  readonly key: string
  readonly name: string
  readonly total: VarianceFiguresView
  /** The worst hundred, each with its part of the figure only. `key` is the visit. */
  readonly visits: readonly (VarianceLine & { readonly carId: CarId; readonly visitId: VisitId })[]
  /** How many visits with a part in the figure are left out; the total holds them. */
  readonly leftOut: number
}

/** The repairs and tasks of one visit that make up its part of a figure, with their gates, worst first. */
export interface VarianceWork {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly name: string
  readonly repairs: readonly WorkVarianceLine[]
}

export interface WorkVarianceLine extends VarianceFiguresView {
  readonly key: string
  readonly name: string
  /** Null for a task. */
  readonly repairId: RepairId | null
  readonly taskId: TaskId | null
  /** In the order of the work; empty for a task. */
  readonly gates: readonly (VarianceFiguresView & { readonly gate: Gate })[]
}

/** The single time entries behind a car's part of a figure, the latest day first. */
export interface VarianceEntries {
  readonly carId: CarId
  readonly name: string
  readonly entries: readonly VarianceEntry[]
}

export interface VarianceEntry {
  readonly entryId: EntryId
  readonly visitId: VisitId
  /** Both null where figures by person may not be shown to who is signed in. */
  readonly personId: PersonId | null
  readonly person: string | null
  /** Local date, YYYY-MM-DD. */
  readonly date: string
  /** The part that counts in this figure, person-hours. */
  readonly hours: number
  /** The whole entry: more where it was logged on several gates. */
  readonly ofHours: number
  /** 'Boot floor: welded; scuttle: welded'. */
  readonly what: string
  readonly causes: readonly (ReworkCause | 'not stated')[]
  /** Of `hours`, those between the release of a hold on the gate and its passing. */
  readonly onReleased: number
  readonly note: string
  readonly running: boolean
  readonly number: number
}

/** The curves of one visit over ISO weeks, each cumulated to the end of the week. */
export interface VisitCurves {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly name: string
  readonly total: VarianceFiguresView
  readonly weeks: readonly CurveWeek[]
  /** Now, or as it ended. */
  readonly schedule: EarnedSchedule | null
  readonly now: Moment
}

export interface CurveWeek {
  /** YYYY-Www */
  readonly week: string
  /** 'week 48' */
  readonly words: string
  /** PV */
  readonly planned: number
  /** EV; null for weeks to come, as the figures below are. */
  readonly earned: number | null
  /** The part of it that has a planned value: what was done before a first plan was taken has none. */
  readonly earnedOfPlanned: number | null
  /** AC */
  readonly spent: number | null
  readonly schedule: EarnedSchedule | null
}
