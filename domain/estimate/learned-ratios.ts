import {
  learnLogRatios,
  type LogRatioBelief,
  nextRatio,
  type OnCars,
  priorFromTypes,
  USUAL_PRIOR,
  WORKSHOP_SHARE,
} from './log-ratios.ts'
import { type LearnedOrder, learnOrder, orderBounds } from './order-bounds.ts'
import { orderStatisticBound } from './order-statistic.ts'

/** Values not exceeded with a likelihood of 50, 80 and 90 %. */
export interface OneSided {
  readonly p50: number
  readonly p80: number
  readonly p90: number
}

export const ONE_SIDED: readonly number[] = [0.5, 0.8, 0.9]

/** By the amount of history: order statistic from 20 jobs of the type on, normal-inverse-gamma from 4 on, else the prior. */
export type BandMethod = 'order statistic' | 'normal-inverse-gamma' | 'prior'

/** Finished jobs of a type from which its order statistics cover what they say, in back-tests. */
export const ORDER_STATISTIC_FROM = 20
/** Fewer say less than the prior. */
export const OWN_JOBS_FROM = 4

/** How real hours turn out for what was expected, learned from finished jobs. Logarithms of actual / expected. */
export type LearnedRatios = LearnedFromOrder | LearnedBelief

interface LearnedFromOrder {
  readonly method: 'order statistic'
  readonly unsure: Unsure
  readonly rests: Rests
  readonly order: LearnedOrder
  /** What four of five of the type's jobs stayed at or under; null where there are too few. */
  readonly seen80: number | null
}

export interface LearnedBelief {
  readonly method: 'normal-inverse-gamma' | 'prior'
  readonly unsure: Unsure
  readonly rests: Rests
  /** Before the type's own jobs. */
  readonly start: LogRatioBelief
  readonly belief: LogRatioBelief
}

/** What the middle may be wrong by, and the part of it that all types share; in variances of a job. */
interface Unsure {
  readonly all: number
  readonly common: number
}

/** Finished jobs of the type, and of others where they are gone by too. */
interface Rests {
  readonly own: number
  readonly others: number
}

/**
 * @param own logarithms of the type's own jobs, in finish order
 * @param others of the workshop's other types, one list each, in any order
 * @param usual what is believed while the others are too few
 * @param on the cars that all these jobs lie on: what one car's luck did to its jobs is wrong for all types alike
 */
export function learnRatios(
  own: readonly number[],
  others: readonly (readonly number[])[],
  usual: LogRatioBelief = USUAL_PRIOR,
  on: OnCars = ON_CARS_OF_THEIR_OWN,
): LearnedRatios {
  return own.length >= ORDER_STATISTIC_FROM ? fromOrder(own, on) : fromBelief(own, others, usual, on)
}

/** Nothing is known of cars. */
const ON_CARS_OF_THEIR_OWN: OnCars = { cars: 1, correlation: 0 }

/**
 * Logarithms of the ratios that the next job stays at or under.
 *
 * @param probabilities in ascending order, above 0 and below 1; the ratios are too
 */
export function logRatiosAt(learned: LearnedRatios, probabilities: readonly number[]): readonly number[] {
  if (learned.method === 'order statistic') return orderBounds(learned.order, probabilities)
  return probabilities.map((probability) => Math.log(nextRatio(learned.belief, probability)))
}

/** What stood before the type's own jobs, as multiples. */
export function priorRatios({ start }: LearnedBelief): OneSided {
  return { p50: nextRatio(start, 0.5), p80: nextRatio(start, 0.8), p90: nextRatio(start, 0.9) }
}

function fromOrder(own: readonly number[], { cars, correlation }: OnCars): LearnedFromOrder {
  return {
    unsure: { all: 1 / own.length, common: correlation / cars },
    method: 'order statistic',
    rests: { own: own.length, others: 0 },
    order: learnOrder(own, ONE_SIDED),
    seen80: orderStatisticBound(own, 0.8),
  }
}

function fromBelief(
  own: readonly number[],
  others: readonly (readonly number[])[],
  usual: LogRatioBelief,
  on: OnCars,
): LearnedBelief {
  const otherJobs = others.reduce((sum, logs) => sum + logs.length, 0)
  const hasOthers = otherJobs >= OWN_JOBS_FROM
  const start = hasOthers
    ? priorFromTypes(own, others, on)
    : { ...usual, common: WORKSHOP_SHARE / usual.jobs }
  const left = start.jobs / (start.jobs + own.length)
  return {
    unsure: { all: 1 / (start.jobs + own.length), common: left ** 2 * start.common },
    method: own.length < OWN_JOBS_FROM ? 'prior' : 'normal-inverse-gamma',
    rests: { own: own.length, others: hasOthers ? otherJobs : 0 },
    start,
    belief: learnLogRatios(start, own),
  }
}
