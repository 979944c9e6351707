import { normalCdf, normalQuantile } from '../statistics/normal.ts'
import { logAtScore, type RatioCurve, scoreOfLog } from './ratio-curve.ts'

/** One way in which it may turn out: how likely it is, and the logarithm of what is expected then. */
export interface Part {
  /** Above 0; those of all parts add up to 1. */
  readonly weight: number
  readonly log: number
  /** Distances from the curve's middle count so many times. */
  readonly spread: number
}

/** The likelihood, 0 to 1, that the logarithm is not exceeded: each part's expectation with the same curve around it. */
export function mixtureCdf(parts: readonly Part[], curve: RatioCurve, log: number): number {
  const middle = logAtScore(curve, 0)
  return parts.reduce(
    (sum, part) =>
      sum + part.weight * cdfAt(scoreOfLog(curve, middle + (log - part.log - middle) / part.spread)),
    0,
  )
}

/** The logarithm that is not exceeded with a likelihood above 0 and below 1. By bisection, to 1e-7. */
export function mixtureLog(parts: readonly Part[], curve: RatioCurve, likelihood: number): number {
  const middle = logAtScore(curve, 0)
  const apart = logAtScore(curve, normalQuantile(likelihood)) - middle
  const logs = parts.map((part) => part.log + middle + part.spread * apart)
  let low = Math.min(...logs)
  let high = Math.max(...logs)
  while (high - low > CLOSE) {
    const log = (low + high) / 2
    if (mixtureCdf(parts, curve, log) < likelihood) low = log
    else high = log
  }
  return (low + high) / 2
}

const CLOSE = 1e-7

/** The normal distribution read from a table with straight lines between, to 4e-5: it is asked for thousands of times. */
function cdfAt(score: number): number {
  const place = (score + FAR) * STEPS
  if (!(place > 0)) return 0
  if (place >= TABLE.length - 1) return 1
  const lower = Math.floor(place)
  const value = TABLE[lower] as number
  return value + (place - lower) * ((TABLE[lower + 1] as number) - value)
}

const FAR = 6
const STEPS = 32
const TABLE = Float64Array.from({ length: 2 * FAR * STEPS + 1 }, (_, at) => normalCdf(at / STEPS - FAR))
