import { describe, expect, it } from 'vitest'
import { pertQuantile } from '../../../domain/statistics/pert-quantiles.ts'

describe('a quantile of three points', () => {
  // Modified PERT beta (Vose 2008) of 4, 5, 12: alpha 1.5, beta 4.5. Calculated with @stdlib's beta quantile.
  it.each([
    [0.1, 4.478469],
    [0.5, 5.768959],
    [0.8, 7.102761],
    [0.9, 7.871226],
  ])('is that of its modified PERT beta: at %d it is %d', (probability, value) => {
    expect(pertQuantile({ shortest: 4, likely: 5, longest: 12 }, probability)).toBeCloseTo(value, 6)
  })

  it('is the one value where all three points agree, be it zero', () => {
    expect(pertQuantile({ shortest: 3, likely: 3, longest: 3 }, 0.8)).toBe(3)
    expect(pertQuantile({ shortest: 0, likely: 0, longest: 0 }, 0.8)).toBe(0)
  })

  it('stays within points that are no nearer than a mode at their edge', () => {
    const atEdge = pertQuantile({ shortest: 2, likely: 2, longest: 4 }, 0.8)
    // Beta(1, 5) on 2 to 4: 1 - (1 - x)^5 = 0.8.
    expect(atEdge).toBeCloseTo(2 + 2 * (1 - 0.2 ** (1 / 5)), 9)
  })
})
