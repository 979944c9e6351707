import { placeAbove } from '../statistics/ascending.ts'
import { normalCdf } from '../statistics/normal.ts'
import { type LearnedRatios, logRatiosAt } from './learned-ratios.ts'

/**
 * A distribution of the logarithm of actual / expected hours: its values at KNOTS, which are scores of the standard normal,
 * with straight lines between and beyond.
 */
export type RatioCurve = readonly number[]

/** Scores of the standard normal that 80 and 90 % stay at or under, to the last digit. */
export const Z80 = 0.8416212335729143
const Z90 = 1.2815515655446004

/** With those of 50, 80 and 90 % among them, so that a curve is exact there. */
const UPPER = [0.25, 0.55, Z80, 1.05, Z90, 1.5, 1.75, 2, 2.5, 3]
const KNOTS: readonly number[] = [...UPPER.map((z) => -z).reverse(), 0, ...UPPER]
const PROBABILITIES = KNOTS.map(normalCdf)

export function curveOf(learned: LearnedRatios): RatioCurve {
  const { method, rests } = learned
  return method === 'order statistic' ? curveOfOrder(learned, rests.own) : logRatiosAt(learned, PROBABILITIES)
}

/** Where the jobs end, the next may be longer or shorter still: the curve goes on as steeply as it rose on that side. */
function curveOfOrder(learned: LearnedRatios, jobs: number): RatioCurve {
  const told = KNOTS.flatMap((score, at) => {
    const likelihood = covered(PROBABILITIES[at] as number, jobs)
    return likelihood > LEAST_JOB / jobs && likelihood < 1 - LEAST_JOB / jobs ? [{ score, likelihood }] : []
  })
  const logs = logRatiosAt(
    learned,
    told.map(({ likelihood }) => likelihood),
  )
  const middle = logs[(logs.length - 1) / 2] as number
  const reach = told.at(-1)?.score ?? 1
  const upper = Math.max(LEAST_SLOPE, ((logs.at(-1) as number) - middle) / reach)
  const lower = Math.max(LEAST_SLOPE, (middle - (logs[0] as number)) / reach)
  return KNOTS.map((score) => {
    if (score > reach) return (logs.at(-1) as number) + (score - reach) * upper
    if (score < -reach) return (logs[0] as number) + (score + reach) * lower
    return logs[told.findIndex((each) => each.score === score)] as number
  })
}

/** Beyond a quarter of a job order statistics are the first or the last one only. */
const LEAST_JOB = 0.25

/**
 * Which likelihood to read from the order statistics of so many jobs so that the next one stays at or under it with this
 * likelihood. Read as they stand they lose least in the mean, at the price of covering 79 % where 80 are said of 30 jobs:
 * (n q + 1/2) / (n + 1).
 */
const covered = (likelihood: number, jobs: number): number => ((jobs + 1) * likelihood - 0.5) / jobs

/** The logarithm that is not exceeded with the likelihood of this score. */
export function logAtScore(curve: RatioCurve, score: number): number {
  const upper = Math.min(KNOTS.length - 1, Math.max(1, placeAbove(KNOTS, score)))
  const beyond = score - (KNOTS[upper] as number)
  if (beyond > 0) return (curve[upper] as number) + beyond * outerSlope(curve, 1)
  const from = KNOTS[upper - 1] as number
  if (score < from) return (curve[upper - 1] as number) + (score - from) * outerSlope(curve, -1)
  return between(score, from, KNOTS[upper] as number, curve[upper - 1] as number, curve[upper] as number)
}

/** The score of the likelihood that a logarithm is not exceeded. */
export function scoreOfLog(curve: RatioCurve, log: number): number {
  const last = KNOTS.length - 1
  if (log >= (curve[last] as number))
    return (KNOTS[last] as number) + (log - (curve[last] as number)) / outerSlope(curve, 1)
  if (log < (curve[0] as number))
    return (KNOTS[0] as number) + (log - (curve[0] as number)) / outerSlope(curve, -1)
  const upper = placeAbove(curve, log)
  return between(
    log,
    curve[upper - 1] as number,
    curve[upper] as number,
    KNOTS[upper - 1] as number,
    KNOTS[upper] as number,
  )
}

/** How far the logarithms lie apart in the middle, as a standard deviation of the normal. */
export const deviationOf = (curve: RatioCurve): number =>
  (logAtScore(curve, Z80) - logAtScore(curve, -Z80)) / (2 * Z80)

/** The same middle, with all distances from it drawn together by a factor of 0 to 1. */
export function narrowed(curve: RatioCurve, factor: number): RatioCurve {
  const middle = logAtScore(curve, 0)
  return curve.map((log) => middle + factor * (log - middle))
}

/**
 * Beyond the outermost knot the curve goes on as steeply as it rose on that side as a whole, never level.
 */
function outerSlope(curve: RatioCurve, side: 1 | -1): number {
  const last = KNOTS.length - 1
  const middle = last / 2
  const rise =
    side === 1
      ? (curve[last] as number) - (curve[middle] as number)
      : (curve[middle] as number) - (curve[0] as number)
  return Math.max(LEAST_SLOPE, rise / (KNOTS[last] as number))
}

/** Real hours never repeat to the percent. */
const LEAST_SLOPE = 0.01

const between = (x: number, x0: number, x1: number, y0: number, y1: number): number =>
  x1 > x0 ? y0 + ((x - x0) / (x1 - x0)) * (y1 - y0) : y1
