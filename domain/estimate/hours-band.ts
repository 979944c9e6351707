import { learnLogRatios, nextRatio, priorFromTypes, USUAL_PRIOR, type LogRatioBelief } from './log-ratios.ts'
import { orderBounds } from './order-bounds.ts'
import { orderStatisticBound } from './order-statistic.ts'

/** Finished jobs' actual / estimated hours. Unfinished jobs never enter. */
export interface RatioHistory {
  /** Of the type that is estimated, in finish order. */
  readonly own: readonly number[]
  /** Of the workshop's other types, one list each, in any order. */
  readonly others: readonly (readonly number[])[]
}

/** Values not exceeded with a likelihood of 50, 80 and 90 %. */
export interface OneSided {
  readonly p50: number
  readonly p80: number
  readonly p90: number
}

export interface HoursBand {
  /** By the amount of history: order statistic from 20 jobs of the type on, normal-inverse-gamma from 4 on, else the prior. */
  readonly method: BandMethod
  /** Person-hours. */
  readonly hours: OneSided
  /** Multiples of the estimate. */
  readonly ratios: OneSided
  /** Finished jobs of the type, and of others where the figures go by them too. */
  readonly rests: { readonly own: number; readonly others: number }
  /** What stood before the type's own jobs, as multiples; null where they alone decide. */
  readonly prior: OneSided | null
  /** The method and what it rests on, as a sentence. */
  readonly words: string
}

export type BandMethod = 'order statistic' | 'normal-inverse-gamma' | 'prior'

/** Finished jobs of a type from which its order statistics cover what they say, in back-tests. */
export const ORDER_STATISTIC_FROM = 20
/** Fewer say less than the prior. */
export const OWN_JOBS_FROM = 4

/**
 * Hours that a new job stays at or under with 50, 80 and 90 % likelihood, learned from finished ones. Ratios that are not
 * above 0 and finite are no history and are left out. Null without an estimate above 0: there is nothing to learn a multiple
 * of.
 */
export function hoursBand(history: RatioHistory, estimatedHours: number): HoursBand | null {
  if (!isPositive(estimatedHours)) return null
  const own = logsOf(history.own)
  const others = history.others.map(logsOf)
  const learned = own.length >= ORDER_STATISTIC_FROM ? fromOrder(own) : fromBelief(own, others)
  return { ...learned, hours: mapped(learned.ratios, (ratio) => ratio * estimatedHours) }
}

type Learned = Omit<HoursBand, 'hours'>

function fromOrder(own: readonly number[]): Learned {
  const { bounds, recentShare, recentLevel } = orderBounds(own, Object.values(PROBABILITIES))
  const [p50, p80, p90] = bounds.map(Math.exp) as [number, number, number]
  const plain = orderStatisticBound(own, PROBABILITIES.p80)
  const seen =
    plain === null ? '' : `: four of five stayed at or under ${times(Math.exp(plain))} the estimate`
  const recent =
    recentShare > 0.5 ? ` The recent ones count most; they ran ${overOrUnder(Math.exp(recentLevel))}.` : ''
  return {
    method: 'order statistic',
    ratios: { p50, p80, p90 },
    rests: { own: own.length, others: 0 },
    prior: null,
    words: `Read from ${own.length} finished jobs of this type in order of size (order statistic)${seen}.${recent}`,
  }
}

function fromBelief(own: readonly number[], others: readonly (readonly number[])[]): Learned {
  const otherJobs = others.flat().length
  const hasOthers = otherJobs >= OWN_JOBS_FROM
  const start = hasOthers ? priorFromTypes([own, ...others]) : USUAL_PRIOR
  const prior = quantilesOf(start)
  const isPrior = own.length < OWN_JOBS_FROM
  const from = hasOthers ? `${otherJobs} finished jobs of other types` : 'the usual prior'
  const stated = `half at or under ${times(prior.p50)} the estimate, four of five at or under ${times(prior.p80)}`
  return {
    method: isPrior ? 'prior' : 'normal-inverse-gamma',
    ratios: quantilesOf(learnLogRatios(start, own)),
    rests: { own: own.length, others: hasOthers ? otherJobs : 0 },
    prior,
    words: isPrior
      ? `Only ${jobs(own.length)} of this type; it rests mostly on ${from}: ${stated}.`
      : `Learned from ${jobs(own.length)} of this type (normal-inverse-gamma), starting from ${from}: ${stated}.`,
  }
}

const PROBABILITIES = { p50: 0.5, p80: 0.8, p90: 0.9 } as const

const quantilesOf = (belief: LogRatioBelief): OneSided =>
  mapped(PROBABILITIES, (probability) => nextRatio(belief, probability))

const mapped = ({ p50, p80, p90 }: OneSided, change: (value: number) => number): OneSided => ({
  p50: change(p50),
  p80: change(p80),
  p90: change(p90),
})

const isPositive = (value: number): boolean => value > 0 && Number.isFinite(value)

const logsOf = (ratios: readonly number[]): readonly number[] => ratios.filter(isPositive).map(Math.log)

const jobs = (count: number): string => (count === 1 ? '1 finished job' : `${count} finished jobs`)

const times = (ratio: number): string => `${ratio.toFixed(2)} times`

function overOrUnder(ratio: number): string {
  const percent = Math.round(Math.abs(ratio - 1) * 100)
  if (percent === 0) return 'close to their estimates'
  return `${percent} % ${ratio > 1 ? 'over' : 'under'} their estimates`
}
