import { type Grade, GRADES } from '../facts/shapes.ts'
import { type FoundCounts, priorShare } from './hidden-grades.ts'

/**
 * How much worse hidden metal turns out than the stated prior says, whatever it looks like outside: each step of the grade
 * counts e^severity times its prior share. 0 is as stated.
 */
export type Severity = number

/** Between workshops, and between the types of one: the prior may be off by a step in one of three repairs. */
const DEVIATION = 0.7

/**
 * The most likely severity of what was found, on top of what is believed of it (maximum a posteriori of an exponential
 * tilt, by Newton's steps; Efron 1981). It carries over what one outside grade tells to all others, of which there may be few.
 */
export function learnSeverity(found: FoundCounts, believed: Severity): Severity {
  let severity = believed
  const seen = [...found].map(([outside, counts]) => ({
    outside,
    count: counts.reduce((sum, count) => sum + count, 0),
    steps: counts.reduce((sum, count, step) => sum + count * step, 0),
  }))
  for (let newton = 0; newton < STEPS; newton += 1) {
    let slope = (believed - severity) / DEVIATION ** 2
    let curvature = 1 / DEVIATION ** 2
    for (const { outside, count, steps } of seen) {
      const { mean, variance } = momentsOf(tilted(outside, severity))
      slope += steps - count * mean
      curvature += count * variance
    }
    severity += Math.max(-LARGEST_STEP, Math.min(LARGEST_STEP, slope / curvature))
  }
  return severity
}

const STEPS = 12
const LARGEST_STEP = 0.5

/** Shares of the hidden grades, best to worst; they add up to 1. */
export function tilted(outside: Grade | null, severity: Severity): readonly number[] {
  const weights = GRADES.map((grade, step) => priorShare(outside, grade) * Math.exp(severity * step))
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return weights.map((weight) => weight / total)
}

function momentsOf(shares: readonly number[]): { readonly mean: number; readonly variance: number } {
  const mean = shares.reduce((sum, share, step) => sum + share * step, 0)
  return { mean, variance: shares.reduce((sum, share, step) => sum + share * (step - mean) ** 2, 0) }
}
