import {
  type BandMethod,
  learnRatios,
  type LearnedRatios,
  logRatiosAt,
  ONE_SIDED,
  type OneSided,
  priorRatios,
} from './learned-ratios.ts'

/** Finished jobs' actual / estimated hours. Unfinished jobs never enter. */
export interface RatioHistory {
  /** Of the type that is estimated, in finish order. */
  readonly own: readonly number[]
  /** Of the workshop's other types, one list each, in any order. */
  readonly others: readonly (readonly number[])[]
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

/**
 * Hours that a new job stays at or under with 50, 80 and 90 % likelihood, learned from finished ones. Ratios that are not
 * above 0 and finite are no history and are left out. Null without an estimate above 0: there is nothing to learn a multiple
 * of.
 */
export function hoursBand(history: RatioHistory, estimatedHours: number): HoursBand | null {
  if (!isPositive(estimatedHours)) return null
  const learned = learnRatios(logsOf(history.own), history.others.map(logsOf))
  const [p50, p80, p90] = logRatiosAt(learned, ONE_SIDED).map(Math.exp) as [number, number, number]
  return {
    method: learned.method,
    hours: { p50: p50 * estimatedHours, p80: p80 * estimatedHours, p90: p90 * estimatedHours },
    ratios: { p50, p80, p90 },
    rests: learned.rests,
    prior: learned.method === 'order statistic' ? null : priorRatios(learned),
    words: bandWords(learned),
  }
}

function bandWords(learned: LearnedRatios): string {
  const { own, others } = learned.rests
  if (learned.method === 'order statistic') {
    const { seen80, order } = learned
    const seen =
      seen80 === null ? '' : `: four of five stayed at or under ${times(Math.exp(seen80))} the estimate`
    const recent =
      order.recentShare > 0.5
        ? ` The recent ones count most; they ran ${overOrUnder(Math.exp(order.recentLevel))}.`
        : ''
    return `Read from ${own} finished jobs of this type in order of size (order statistic)${seen}.${recent}`
  }
  const from = others > 0 ? `${others} finished jobs of other types` : 'the usual prior'
  const prior = priorRatios(learned)
  const stated = `half at or under ${times(prior.p50)} the estimate, four of five at or under ${times(prior.p80)}`
  return learned.method === 'prior'
    ? `Only ${jobs(own)} of this type; it rests mostly on ${from}: ${stated}.`
    : `Learned from ${jobs(own)} of this type (normal-inverse-gamma), starting from ${from}: ${stated}.`
}

const isPositive = (value: number): boolean => value > 0 && Number.isFinite(value)

const logsOf = (ratios: readonly number[]): readonly number[] => ratios.filter(isPositive).map(Math.log)

const jobs = (count: number): string => (count === 1 ? '1 finished job' : `${count} finished jobs`)

const times = (ratio: number): string => `${ratio.toFixed(2)} times`

function overOrUnder(ratio: number): string {
  const percent = Math.round(Math.abs(ratio - 1) * 100)
  if (percent === 0) return 'close to their estimates'
  return `${percent} % ${ratio > 1 ? 'over' : 'under'} their estimates`
}
