import { betaCdf } from '../statistics/beta.ts'

/**
 * Which smallest of so many values a new one stays at or under with at least this probability, whatever they are distributed
 * as: the ceil((n + 1) q)-th (Vovk, Gammerman & Shafer 2005, split conformal). Null where there are too few.
 */
export function orderStatisticRank(count: number, probability: number): number | null {
  // (9 + 1) x 0.7 comes out a little above 7: what rounding adds must not raise the rank.
  const rank = Math.max(1, Math.ceil((count + 1) * probability - ROUNDING))
  return rank > count ? null : rank
}

/** Above what a product of counts up to a million and a probability can be off by, far below the step between ranks. */
const ROUNDING = 1e-9

/** That value itself; null where there are too few. */
export function orderStatisticBound(values: readonly number[], probability: number): number | null {
  const rank = orderStatisticRank(values.length, probability)
  return rank === null ? null : (values.toSorted((a, b) => a - b)[rank - 1] ?? null)
}

/**
 * The same place read from all order statistics, each weighted by how likely it is to be the one (Harrell & Davis 1982, with
 * the shape n q + 1/2, n (1 - q) + 1/2 between theirs and the plain quantile's). It jumps less from job to job than a single
 * one. Values in ascending order, at least one.
 */
export function smoothOrderStatistic(ascending: readonly number[], probability: number): number {
  const { from, weights } = weightsOf(ascending.length, probability)
  let sum = 0
  for (let at = 0; at < weights.length; at += 1)
    sum += (weights[at] as number) * (ascending[from + at] as number)
  return sum
}

/** Of the order statistics from `from` on, counted from 0; those before and behind weigh nothing that could be seen. */
interface Weights {
  readonly from: number
  readonly weights: Float64Array
}

const known = new Map<number, Map<number, Weights>>()

/** Kept, because a history is gone through job by job and the weights depend on the count alone. */
function weightsOf(count: number, probability: number): Weights {
  const byCount = known.get(probability) ?? new Map<number, Weights>()
  known.set(probability, byCount)
  const weights = byCount.get(count) ?? reckonWeights(count, probability)
  byCount.set(count, weights)
  return weights
}

function reckonWeights(count: number, probability: number): Weights {
  const shape = { alpha: count * probability + 0.5, beta: count * (1 - probability) + 0.5 }
  const reach = FAR * Math.sqrt(count / 4)
  const from = Math.max(0, Math.floor(count * probability - reach))
  const until = Math.min(count, Math.ceil(count * probability + reach))
  let below = betaCdf(from / count, shape)
  const weights = Float64Array.from({ length: until - from }, (_, at) => {
    const upTo = betaCdf((from + at + 1) / count, shape)
    const weight = upTo - below
    below = upTo
    return weight
  })
  return { from, weights }
}

/** Standard deviations, at most those of the median; beyond them lies less than 1e-14. */
const FAR = 8
