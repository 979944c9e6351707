import type { ThreePoint } from '../../facts/shapes.ts'
import { pertShape } from '../../statistics/pert-quantiles.ts'
import { expectedHours } from '../../value/estimated-hours.ts'

/**
 * Expected hours still to do after `spent` hours on work that is not finished: E[X - s | X > s] with X distributed as a
 * modified PERT beta on [a, b] (see {@link pertShape}; Malcolm et al. 1959, Vose 2008), so that E[X - s | X > s] = ∫ (x - s) f(x) dx / ∫ f(x) dx, both from s to b. 0 once the longest
 * time is spent.
 */
export function expectedRest(points: ThreePoint, spent: number): number {
  const { shortest: a, longest: b } = points
  if (spent <= a) return expectedHours(points) - spent
  if (spent >= b) return 0
  const width = b - a
  const { alpha, beta } = pertShape(points)
  const density = (x: number): number => x ** (alpha - 1) * (1 - x) ** (beta - 1)
  const from = (spent - a) / width
  const likelihood = integral(density, from, 1)
  return (integral((x) => (x - from) * density(x), from, 1) / likelihood) * width
}

/** Simpson's rule; the densities are smooth but for their ends, and 200 steps keep them to a few seconds of work. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const step = (to - from) / STEPS
  let sum = f(from) + f(to)
  for (let index = 1; index < STEPS; index += 1) sum += (index % 2 === 1 ? 4 : 2) * f(from + index * step)
  return (sum * step) / 3
}

const STEPS = 200
