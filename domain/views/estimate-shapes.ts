import type { Moment } from '../car.ts'
import type { Grade, Payer, ThreePoint } from '../facts/shapes.ts'
import type { CarId, LayerId, RepairId, TaskId, VisitId } from '../ids.ts'
import type { LikelyHours } from '../text/likely-words.ts'
import type { SectionView } from './shared-views.ts'

/** The estimate of a car's current visit before and after its repairs are opened. Person-hours. */
export interface EstimateView {
  readonly carId: CarId
  /** Null for a car without a visit: then nothing is estimated. */
  readonly visitId: VisitId | null
  /** As they were added. */
  readonly repairs: readonly EstimateRepairView[]
  readonly tasks: readonly EstimateTaskView[]
  readonly whole: WholeEstimateView
  /** What could move the hours most, the largest first; empty when nothing is unknown any more. */
  readonly movers: readonly MoverView[]
  /** One row for each payer that pays for anything. */
  readonly payers: readonly PayerSumView[]
  /** Hours that the widest band reaches: the common scale of all drawings. */
  readonly scale: number
}

export type EstimateState =
  | 'before opening'
  | 'opened'
  | 'assessed'
  | 'in work'
  | 'finished'
  | 'closed as found'

export interface EstimateRepairView {
  readonly id: RepairId
  readonly name: string
  /** Of its repair type; null for one that came from none. */
  readonly type: string | null
  /** 'right rear' */
  readonly zone: string
  readonly loadBearing: boolean
  readonly state: EstimateState
  /** Seen on the outermost layer before opening. */
  readonly outside: {
    readonly grade: Grade
    readonly note: string
    readonly by: string
    readonly at: Moment
  } | null
  /** Its lines as they stand, with accepted variations. */
  readonly agreed: number
  /** Whether its payers have accepted all of its lines. */
  readonly isAccepted: boolean
  /** Its lines as they were set first. */
  readonly baseline: number
  /** Sums of the lines' three points. */
  readonly points: ThreePoint
  /** Hidden layers, innermost first; without the outermost one. */
  readonly layers: readonly HiddenLayerView[]
  /** What it takes as known now; null where nothing is estimated, and once it is finished. */
  readonly band: LikelyHours | null
  /** What was likely before it was opened, once it is; null before, and where nothing was estimated. */
  readonly first: LikelyHours | null
  /** Spent, once it is finished. */
  readonly took: number | null
  /** What the band rests on, in sentences; without what its layers say. */
  readonly rests: readonly string[]
  /** Why there is no band, and what to do; null when there is one or none is needed. */
  readonly problem: string | null
  /** Before it is opened the outermost layer shows the grade seen from outside. */
  readonly section: SectionView
}

export interface HiddenLayerView {
  readonly id: LayerId
  readonly name: string
  /** Null until somebody has graded it. */
  readonly found: Grade | 'not seen' | null
  /** Best to worst, adding up to 1; null once it is graded. */
  readonly likely: readonly LikelyGradeView[] | null
  /** The counts that they rest on, or the stated prior; what was found, once it is graded. */
  readonly words: string
}

export interface LikelyGradeView {
  readonly grade: Grade
  /** 0 to 1. */
  readonly share: number
  /** Finished repairs of the type with the same grade outside that turned out so, and of how many. */
  readonly found: number
  readonly seen: number
}

export interface EstimateTaskView {
  readonly id: TaskId
  readonly name: string
  readonly agreed: number
  readonly baseline: number
  readonly points: ThreePoint
  readonly isDone: boolean
}

export interface WholeEstimateView {
  readonly agreed: number
  readonly accepted: number
  /** Lines that their payers have not accepted yet. */
  readonly waiting: number
  /** Of variations that wait for an answer; not among what is agreed. */
  readonly asked: number
  readonly band: LikelyHours | null
  /** With every repair as it was before it was opened; null when none is opened. */
  readonly first: LikelyHours | null
  /** 'Half the time 212 h or less; four times in five 251 h or less.', or why there is no band. */
  readonly words: string
  readonly rests: readonly string[]
}

export interface MoverView {
  /** Null for a task. */
  readonly repairId: RepairId | null
  readonly name: string
  /** Of all that is unsure about the car's hours, 0 to 1. */
  readonly share: number
  /** Why, and how far: 'not seen yet: inner sill and stiffener; 41 to 52 h'. */
  readonly words: string
}

export interface PayerSumView {
  readonly payer: Payer
  readonly accepted: number
  /** Lines that it has not accepted yet. */
  readonly waiting: number
  /** Of variations that wait for its answer. */
  readonly asked: number
  /** Lines that wait for its answer. */
  readonly waitingLines: number
}
