import type { Moment } from '../car.ts'
import type { BandMethod } from '../estimate/learned-ratios.ts'
import type { BandsWhen } from '../facts/agreement-facts.ts'
import type { CarId, RepairId } from '../ids.ts'
import type { Proportion } from '../statistics/proportion.ts'

/** What was said of repairs' hours against what they took. Person-hours; ratios are multiples of the estimate. */
export interface WereWeRightView {
  /** Whether what was said before opening is judged, or what was said once assessed. */
  readonly when: BandsWhen
  /** So many of the last ones are judged, of all and of each group; null for all. */
  readonly last: number | null
  /** Finished repairs of which something was said then, and those of which nothing was. */
  readonly stated: number
  readonly unstated: number
  /** Why the figures say little yet; null once there are enough. */
  readonly few: string | null
  readonly all: AccuracyLine
  /** Most jobs first. Types of finished repairs. */
  readonly byType: readonly TypeAccuracyLine[]
  /** Null when the person signed in may see none. */
  readonly byEstimator: readonly AccuracyLine[] | null
  /** In the order of finishing; of more than {@link MOST_DOTS} the last ones. */
  readonly dots: readonly JudgedDot[]
}

export const MOST_DOTS = 200

export interface AccuracyLine {
  readonly key: string
  readonly name: string
  /** Judged. */
  readonly jobs: number
  /** Null without a job. */
  readonly within50: WithinView | null
  readonly within80: WithinView | null
  readonly bias: BiasView | null
}

export interface TypeAccuracyLine extends AccuracyLine {
  /** How hours of the type are banded now. */
  readonly method: BandMethod
  /** Its finished repairs, judged or not. */
  readonly finished: number
  /** 'Order statistic of 24 finished repairs' */
  readonly methodWords: string
}

export type Verdict = 'as it should' | 'too low' | 'too high' | 'too few'

export interface WithinView {
  /** 50 or 80: the share of jobs that should have stayed at or under. */
  readonly percent: number
  readonly count: number
  readonly jobs: number
  /** Of all such jobs, with its 95 % interval. */
  readonly share: Proportion
  readonly verdict: Verdict
  /** '80 % figures held for 31 of 40, as they should' */
  readonly words: string
}

export interface BiasView {
  readonly median: number
  /** The geometric mean, and its 95 % interval; null with one job. */
  readonly mean: number
  readonly interval: { readonly low: number; readonly high: number } | null
  /** 'Real hours ran 8 % over the estimate (2 to 15 % over)' */
  readonly words: string
}

export interface JudgedDot {
  readonly carId: CarId
  readonly repairId: RepairId
  /** 'Sill, left; Dunmere Saloon' */
  readonly name: string
  readonly finishedAt: Moment
  readonly estimated: number
  readonly actual: number
  /** Hours that were said not to be exceeded. */
  readonly p50: number
  readonly p80: number
}
