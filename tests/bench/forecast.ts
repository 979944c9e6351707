import { readFileSync } from 'node:fs'
import { basename, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import type { OneSided } from '../../domain/estimate/learned-ratios.ts'
import { pinballLoss } from '../../domain/statistics/pinball.ts'
import { ratioBand, type RatioHistory } from '../support/ratio-band.ts'
import { type ColumnChoice, type Job, readJobs } from './job-columns.ts'
import { readJobTable } from './job-table.ts'

export interface ForecastFigures {
  /** Jobs scored: all from the 20th on. */
  readonly jobs: number
  /** Share of them that stayed at or under the bound, 0 to 1; null without a job. */
  readonly coverage80: number | null
  readonly coverage90: number | null
  readonly pinball80: PinballFigures | null
  readonly pinball90: PinballFigures | null
  /** Rows left out for want of an estimate, an actual above 0 or a date. */
  readonly skipped: number
}

/** Mean pinball loss of a bound on the job, per estimated hour. */
export interface PinballFigures {
  readonly ours: number
  /** The estimate itself as the bound. */
  readonly raw: number
  /** The plain quantile of all ratios known (linear between order statistics); the estimate itself before the first. */
  readonly empirical: number
}

const USAGE =
  'Use: npm run bench -- forecast --file F [--estimate COLUMN] [--actual COLUMN] [--date COLUMN] [--group COLUMN] [--json]'

/** Back-tests the bounds on the hours of the jobs of a CSV or ARFF file, each from the jobs before it only. */
export function benchForecast(args: readonly string[]): ForecastFigures {
  const { file, choice } = readOptions(args)
  const { jobs, skipped } = readJobs(readJobTable(readText(file), basename(file)), choice)
  return { ...backTest(jobs), skipped }
}

function readOptions(args: readonly string[]): { file: string; choice: ColumnChoice } {
  const { values } = parseArgs({
    args: [...args],
    options: {
      file: { type: 'string' },
      estimate: { type: 'string' },
      actual: { type: 'string' },
      date: { type: 'string' },
      group: { type: 'string' },
    },
  })
  const { file, ...choice } = values
  if (file === undefined) throw new Error(`Say which file of finished jobs to read. ${USAGE}`)
  return { file: resolve(file), choice }
}

function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    throw new Error(`${file} cannot be read. Give a CSV or ARFF file of finished jobs. ${USAGE}`, {
      cause: error,
    })
  }
}

/** The first ones are known but not scored. */
const SCORED_FROM = 20

/** In order of time, in which they stand where there are no dates. */
export function backTest(jobs: readonly Job[]): Omit<ForecastFigures, 'skipped'> {
  const ordered = jobs.every(({ time }) => time === null)
    ? jobs
    : jobs.toSorted((a, b) => (a.time ?? 0) - (b.time ?? 0))
  const forecasts = ordered.slice(SCORED_FROM - 1).map((job, index) => {
    const before = ordered.slice(0, SCORED_FROM - 1 + index)
    return forecast(job, job.time === null ? before : before.filter(({ time }) => isBefore(time, job.time)))
  })
  return {
    jobs: forecasts.length,
    coverage80: coverage(forecasts, 'p80'),
    coverage90: coverage(forecasts, 'p90'),
    pinball80: pinball(forecasts, 'p80', 0.8),
    pinball90: pinball(forecasts, 'p90', 0.9),
  }
}

/** What bears the same date was not known yet. */
const isBefore = (time: number | null, other: number | null): boolean =>
  time !== null && other !== null && time < other

/** All in multiples of the estimate. */
interface Forecast {
  readonly actual: number
  readonly ours: OneSided
  readonly empirical: Pick<OneSided, 'p80' | 'p90'>
}

function forecast(job: Job, before: readonly Job[]): Forecast {
  const ascending = before.map(ratioOf).toSorted((a, b) => a - b)
  return {
    actual: ratioOf(job),
    ours: ratioBand(historyOf(job, before)).ratios,
    empirical: { p80: plainQuantile(ascending, 0.8), p90: plainQuantile(ascending, 0.9) },
  }
}

const ratioOf = ({ actual, estimate }: Job): number => actual / estimate

function historyOf({ group }: Job, before: readonly Job[]): RatioHistory {
  const { [group]: own = [], ...others } = Object.groupBy(before, (each) => each.group)
  return { own: own.map(ratioOf), others: Object.values(others).map((jobs = []) => jobs.map(ratioOf)) }
}

/** Linear between order statistics at (n - 1) q (Hyndman & Fan 1996, definition 7); 1 without a value. */
function plainQuantile(ascending: readonly number[], probability: number): number {
  const place = (ascending.length - 1) * probability
  const low = ascending[Math.floor(place)]
  const high = ascending[Math.ceil(place)]
  return low === undefined || high === undefined ? 1 : low + (place - Math.floor(place)) * (high - low)
}

type Bound = 'p80' | 'p90'

function coverage(forecasts: readonly Forecast[], bound: Bound): number | null {
  if (forecasts.length === 0) return null
  return forecasts.filter(({ actual, ours }) => actual <= ours[bound]).length / forecasts.length
}

function pinball(forecasts: readonly Forecast[], bound: Bound, probability: number): PinballFigures | null {
  if (forecasts.length === 0) return null
  const mean = (of: (forecast: Forecast) => number): number =>
    forecasts.reduce((sum, each) => sum + pinballLoss(each.actual, of(each), probability), 0) /
    forecasts.length
  return {
    ours: mean(({ ours }) => ours[bound]),
    raw: mean(() => 1),
    empirical: mean(({ empirical }) => empirical[bound]),
  }
}
