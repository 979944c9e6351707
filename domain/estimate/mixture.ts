import { normalCdf, normalQuantile } from '../statistics/normal.ts'
import { logAtScore, type RatioCurve, scoreOfLog } from './ratio-curve.ts'

/** One way in which it may turn out: how likely it is, and the logarithm of what is expected then. */
export interface Part {
  /** Above 0; those of all parts add up to 1. */
  readonly weight: number
  readonly log: number
}

/** The likelihood, 0 to 1, that the logarithm is not exceeded: each part's expectation with the same curve around it. */
export function mixtureCdf(parts: readonly Part[], curve: RatioCurve, log: number): number {
  return parts.reduce((sum, part) => sum + part.weight * cdfAt(scoreOfLog(curve, log - part.log)), 0)
}

/** The logarithm that is not exceeded with a likelihood above 0 and below 1. By bisection, to 1e-7; exact for one part. */
export function mixtureLog(parts: readonly Part[], curve: RatioCurve, likelihood: number): number {
  const middle = logAtScore(curve, normalQuantile(likelihood))
  let low = middle + Math.min(...parts.map(({ log }) => log))
  let high = middle + Math.max(...parts.map(({ log }) => log))
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
