import { meanOf, squaresAround } from './log-ratios.ts'
import { type Proportion, proportionOf } from '../statistics/proportion.ts'
import { studentTQuantile } from '../statistics/student-t.ts'

/** A finished job with what was said before it. Person-hours. */
export interface ForecastJob {
  /** Type of repair, estimator or whatever it is judged by. */
  readonly group: string
  readonly estimated: number
  /** The figures given before: not exceeded with 50 and with 80 % likelihood. */
  readonly p50: number
  readonly p80: number
  readonly actual: number
}

export interface Accuracy {
  /** Jobs judged. */
  readonly jobs: number
  /** Jobs without hours, estimate or figures above 0; not judged. */
  readonly leftOut: number
  /** Null without a job. */
  readonly within50: WithinFigure | null
  readonly within80: WithinFigure | null
  readonly bias: Bias | null
}

/** Jobs whose real hours stayed at or under the figure, and what share of all such jobs that tells of. */
export interface WithinFigure {
  readonly count: number
  readonly share: Proportion
}

/** Multiples of the estimate: 1.08 is 8 % over. */
export interface Bias {
  /** Half of the jobs stayed at or under it. */
  readonly median: number
  /** The geometric mean, in which half as much and twice as much even out. */
  readonly mean: number
  /** 95 % confidence interval of the geometric mean; null with fewer than two jobs. */
  readonly interval: { readonly low: number; readonly high: number } | null
}

export interface AccuracyByGroup {
  readonly all: Accuracy
  readonly groups: ReadonlyMap<string, Accuracy>
}

/**
 * Were we right: of the last jobs how often the real hours stayed at or under the 50 and 80 % figures, and how far estimates
 * are off in the mean.
 *
 * @param jobs in finish order
 * @param last so many are judged, of all and of each group
 */
export function accuracyByGroup(jobs: readonly ForecastJob[], last: number): AccuracyByGroup {
  const groups = Map.groupBy(jobs, ({ group }) => group)
  return {
    all: accuracyOf(lastOf(jobs, last)),
    groups: new Map([...groups].map(([group, own]) => [group, accuracyOf(lastOf(own, last))])),
  }
}

const lastOf = <T>(items: readonly T[], count: number): readonly T[] =>
  items.slice(Math.max(0, items.length - count))

export function accuracyOf(jobs: readonly ForecastJob[]): Accuracy {
  const judged = jobs.filter(({ estimated, actual, p50, p80 }) =>
    [estimated, actual, p50, p80].every(isPositive),
  )
  return {
    jobs: judged.length,
    leftOut: jobs.length - judged.length,
    within50: withinFigure(judged, ({ p50 }) => p50),
    within80: withinFigure(judged, ({ p80 }) => p80),
    bias: biasOf(judged.map(({ actual, estimated }) => Math.log(actual / estimated))),
  }
}

/**
 * What an estimate is likely to be off by that is made up of several types: their biases by their shares in it (the mixed
 * projects of the UK Green Book's guidance on optimism bias). In the unit of the biases; null when the shares do not add up
 * to 1. No screen calls it yet: it is held to the guidance's own example.
 */
export function mixedBias(
  parts: readonly { readonly share: number; readonly bias: number }[],
): number | null {
  const total = parts.reduce((sum, { share }) => sum + share, 0)
  if (Math.abs(total - 1) > 1e-9) return null
  return parts.reduce((sum, { share, bias }) => sum + share * bias, 0)
}

function withinFigure(
  jobs: readonly ForecastJob[],
  figure: (job: ForecastJob) => number,
): WithinFigure | null {
  if (jobs.length === 0) return null
  const count = jobs.filter((job) => job.actual <= figure(job)).length
  return { count, share: proportionOf(count, jobs.length) }
}

/** The interval is Student's, on the logarithms. */
function biasOf(logs: readonly number[]): Bias | null {
  if (logs.length === 0) return null
  const mean = meanOf(logs)
  return { median: Math.exp(medianOf(logs)), mean: Math.exp(mean), interval: intervalOf(logs, mean) }
}

function intervalOf(logs: readonly number[], mean: number): Bias['interval'] {
  const degrees = logs.length - 1
  if (degrees < 1) return null
  const error = Math.sqrt(squaresAround(logs, mean) / degrees / logs.length)
  const reach = studentTQuantile(0.975, degrees) * error
  return { low: Math.exp(mean - reach), high: Math.exp(mean + reach) }
}

function medianOf(values: readonly number[]): number {
  const ascending = values.toSorted((a, b) => a - b)
  const middle = values.length / 2
  const [low, high] = [ascending[Math.ceil(middle) - 1], ascending[Math.floor(middle)]] as [number, number]
  return (low + high) / 2
}

const isPositive = (value: number): boolean => value > 0 && Number.isFinite(value)
