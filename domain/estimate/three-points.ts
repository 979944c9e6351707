import type { ThreePoint } from '../facts/shapes.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import { pertShape } from '../statistics/pert-quantiles.ts'

/** What is wrong with three points and what to do, to follow 'The hours are '; null when nothing is. */
export function pointsFault({ shortest, likely, longest }: ThreePoint): string | null {
  if (![shortest, likely, longest].every((hours) => hours >= 0 && Number.isFinite(hours)))
    return 'not numbers from 0 on. Correct them.'
  return shortest <= likely && likely <= longest
    ? null
    : 'not in order. Give them as shortest, most likely, longest.'
}

/**
 * How far the sum of several pieces of work spreads, as a deviation of its logarithm: their modified PERT betas (exact
 * variance; Vose 2008), each two correlated, and a lognormal of the same mean and variance. 0 without hours.
 */
export function sumDeviation(pieces: readonly ThreePoint[], correlation: number): number {
  const mean = pieces.reduce((sum, points) => sum + expectedHours(points), 0)
  if (!(mean > 0)) return 0
  const variances = pieces.map(varianceOf)
  const apart = variances.reduce((sum, variance) => sum + variance, 0)
  const together = variances.reduce((sum, variance) => sum + Math.sqrt(variance), 0) ** 2
  const variance = (1 - correlation) * apart + correlation * together
  return Math.sqrt(Math.log1p(variance / mean ** 2))
}

function varianceOf(points: ThreePoint): number {
  const width = points.longest - points.shortest
  if (!(width > 0)) return 0
  const { alpha, beta } = pertShape(points)
  return ((alpha * beta) / ((alpha + beta) ** 2 * (alpha + beta + 1))) * width ** 2
}
