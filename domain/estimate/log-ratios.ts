import { studentTQuantile } from '../statistics/student-t.ts'

/**
 * What is believed of the logarithm of actual / estimated hours before or after jobs were finished: normal, its mean and
 * variance normal-inverse-gamma distributed. `mean` counts as much as `jobs` finished jobs; the variance is inverse-gamma
 * with `shape` and `scale`.
 */
export interface LogRatioBelief {
  readonly mean: number
  readonly jobs: number
  readonly shape: number
  readonly scale: number
}

/**
 * Before anything is finished: half of the jobs stay at or under their estimate, four of five at or under 1.23 times it.
 * Worth one job for the mean and four for the spread. No source: a start that the first finished jobs soon outweigh.
 */
export const USUAL_PRIOR: LogRatioBelief = { mean: 0, jobs: 1, shape: 2, scale: 0.05 }

/** The belief after these logarithms were seen too, in any order (Murphy 2007, section 3). */
export function learnLogRatios(prior: LogRatioBelief, logs: readonly number[]): LogRatioBelief {
  if (logs.length === 0) return prior
  const seen = meanOf(logs)
  const jobs = prior.jobs + logs.length
  return {
    mean: (prior.jobs * prior.mean + logs.length * seen) / jobs,
    jobs,
    shape: prior.shape + logs.length / 2,
    scale:
      prior.scale +
      squaresAround(logs, seen) / 2 +
      (prior.jobs * logs.length * (seen - prior.mean) ** 2) / (2 * jobs),
  }
}

/**
 * The ratio that the next job stays at or under with this probability: Student's t with twice the shape as degrees of freedom
 * around the mean, its scale the root of scale (jobs + 1) / (shape jobs) (Murphy 2007, section 3.6).
 */
export function nextRatio({ mean, jobs, shape, scale }: LogRatioBelief, probability: number): number {
  const spread = Math.sqrt((scale * (jobs + 1)) / (shape * jobs))
  return Math.exp(mean + studentTQuantile(probability, 2 * shape) * spread)
}

/**
 * What jobs of other types tell of one more type: its mean lies as far from theirs as their means lie apart, its jobs vary
 * as theirs do within a type (one-way random effects; Searle, Casella & McCulloch 1992, ch. 3; means weighed by their own
 * variances, the unknown mean of all types counting to the variance; Gelman et al., Bayesian Data Analysis, section 5.4).
 *
 * @param own logarithms of the type's own jobs: they tell how jobs vary
 * @param others those of the other types; they are taken to be on so many cars, jobs of one car having this correlation
 */
export function priorFromTypes(
  own: readonly number[],
  others: readonly (readonly number[])[],
  { cars, correlation }: OnCars,
): TypesBelief {
  const types = others.filter((logs) => logs.length > 0)
  const all = [own, ...types].filter((logs) => logs.length > 0)
  const jobs = all.flat().length
  const within = spreadWithin(all)
  const between = shrunkBetween(types, within)
  const weights = types.map((logs) => 1 / (between + within / logs.length))
  const precision = weights.reduce((sum, weight) => sum + weight, 1 / (WORKSHOP_SHARE * within))
  const mean = types.reduce((sum, logs, at) => sum + (weights[at] as number) * meanOf(logs), 0) / precision
  const unsure = 1 / precision + (correlation * within) / cars
  const shape = Math.min(MOST_SHAPE, USUAL_PRIOR.shape + (jobs - all.length) / 2)
  return {
    mean,
    jobs: Math.min(MOST_JOBS, Math.max(LEAST_JOBS, within / (between + unsure))),
    shape,
    scale: (shape - 1) * within,
    common: unsure / within,
  }
}

/** Cars that jobs lie on, and how alike those of one car turn out. */
export interface OnCars {
  readonly cars: number
  readonly correlation: number
}

/** `common`: what it may be wrong by for all types alike, in variances of a job. */
export interface TypesBelief extends LogRatioBelief {
  readonly common: number
}

/** Of the variance that the usual prior leaves a type's mean, the part that all types share. Invented for want of a source. */
export const WORKSHOP_SHARE = 0.25

/** Variance of the types' means; few types are joined by what the usual prior expects. */
function shrunkBetween(types: readonly (readonly number[])[], within: number): number {
  const usual = (1 - WORKSHOP_SHARE) * within
  const seen = types.length > 1 ? (types.length - 1) * spreadBetween(types, within) : 0
  return (PRIOR_TYPES * usual + seen) / (PRIOR_TYPES + Math.max(0, types.length - 1))
}

/** What the usual belief of how types differ weighs, in types. */
const PRIOR_TYPES = 2

/** As many jobs as other types may stand for: of the mean between half a job and twenty, of the spread sixteen. */
const LEAST_JOBS = 0.5
const MOST_JOBS = 20
const MOST_SHAPE = 8

/** Variance of the jobs of a group around its own mean; few jobs are joined by what the usual prior expects. */
export function spreadWithin(types: readonly (readonly number[])[]): number {
  const squares = types.reduce((sum, logs) => sum + squaresAround(logs, meanOf(logs)), 0)
  const degrees = types.reduce((sum, logs) => sum + logs.length - 1, 0)
  return (2 * USUAL_PRIOR.scale + squares) / (2 * (USUAL_PRIOR.shape - 1) + degrees)
}

/** Variance of the groups' own means, never below 0; 0 with one group. */
export function spreadBetween(types: readonly (readonly number[])[], within: number): number {
  const all = types.flat()
  const overall = meanOf(all)
  const squares = types.reduce((sum, logs) => sum + logs.length * (meanOf(logs) - overall) ** 2, 0)
  const size = all.length - types.reduce((sum, logs) => sum + logs.length ** 2, 0) / all.length
  return size > 0 ? Math.max(0, (squares - (types.length - 1) * within) / size) : 0
}

export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length

export const squaresAround = (values: readonly number[], centre: number): number =>
  values.reduce((sum, value) => sum + (value - centre) ** 2, 0)
