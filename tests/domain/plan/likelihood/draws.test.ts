import { describe, expect, it } from 'vitest'
import { createDraw } from '../../../../domain/plan/likelihood/draws.ts'
import type { Duration } from '../../../../domain/plan/likelihood/durations.ts'
import { HIDDEN_DAMAGE, USUAL_MULTIPLES } from '../../../../domain/plan/likelihood/prior.ts'
import { activity } from '../../../support/plan-problem.ts'

const SAMPLES = 4000
/** Ticks for the mean of the points, so many that rounding them does not show. */
const PLANNED = 60_000

/** The gates of one repair, each 4, 5 or 12 hours: their drawn hours. */
function drawn(gates: number, over: Partial<Duration> = {}): readonly (readonly number[])[] {
  const activities = Array.from({ length: gates }, () => activity({ work: PLANNED, repair: 1 }))
  const durations = activities.map((): Duration => ({ ...points, hidden: null, ...over }))
  const draw = createDraw(activities, durations, { samples: SAMPLES, seed: 7 })
  return activities.map((_, index) => {
    const work = new Int32Array(SAMPLES)
    draw(index, work)
    return [...work].map((ticks) => (ticks * 6) / PLANNED)
  })
}
const points = { shortest: 4, likely: 5, longest: 12 }

const mean = (values: readonly number[]): number =>
  values.reduce((sum, each) => sum + each, 0) / values.length
const quantile = (values: readonly number[], at: number): number =>
  values.toSorted((a, b) => a - b)[Math.floor(at * values.length)] ?? Number.NaN

/** Spearman's: the correlation of the ranks. */
function rankCorrelation(one: readonly number[], other: readonly number[]): number {
  const ranksOf = (values: readonly number[]): readonly number[] => {
    const ranks: number[] = []
    const order = [...values.keys()].toSorted((a, b) => (values[a] ?? 0) - (values[b] ?? 0))
    order.forEach((index, rank) => (ranks[index] = rank))
    return ranks
  }
  const [a, b] = [ranksOf(one), ranksOf(other)]
  const middle = (SAMPLES - 1) / 2
  const product = (x: readonly number[], y: readonly number[]): number =>
    x.reduce((sum, rank, index) => sum + (rank - middle) * ((y[index] ?? 0) - middle), 0)
  return product(a, b) / product(a, a)
}

describe('the drawn work of the gates of one repair', () => {
  // 80 and 10 % of the modified PERT beta of 4, 5 and 12: 7.102761 and 4.478469, calculated with @stdlib.
  it('is as sure of each gate as its points are, alone in its repair or with others', () => {
    for (const gates of [1, 3])
      for (const hours of drawn(gates)) {
        expect(Math.abs(quantile(hours, 0.8) / 7.102761 - 1)).toBeLessThan(0.02)
        expect(Math.abs(quantile(hours, 0.1) / 4.478469 - 1)).toBeLessThan(0.02)
      }
  })

  // Pearson 1907: ranks of normal scores correlated by r correlate by 6 / pi x asin(r / 2), 0.2876 for 0.3.
  it('turns out alike, by 0.3 between their normal scores', () => {
    const [first = [], second = []] = drawn(2)
    expect(Math.abs(rankCorrelation(first, second) - (6 / Math.PI) * Math.asin(0.15))).toBeLessThan(0.05)
  })

  it('hides as much whatever luck its gates have, and the same for all of them', () => {
    const [first = [], second = []] = drawn(2, { hidden: USUAL_MULTIPLES })
    // Mean of a lognormal: median x e^(s^2 / 2); of a product of what is independent: the product, 6 h x 1.223.
    const { median, logDeviation } = HIDDEN_DAMAGE
    expect(Math.abs(mean(first) / (6 * median * Math.exp(logDeviation ** 2 / 2)) - 1)).toBeLessThan(0.02)
    const sure = { shortest: 6, likely: 6, longest: 6 }
    const [one = [], other = []] = drawn(2, { ...sure, hidden: USUAL_MULTIPLES })
    expect(rankCorrelation(one, other)).toBeCloseTo(1, 6)
    expect(rankCorrelation(first, second)).toBeLessThan(0.9)
  })
})
