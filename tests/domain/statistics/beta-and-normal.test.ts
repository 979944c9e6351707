import jstat from 'jstat'
import { describe, expect, it, test } from 'vitest'
import { betaCdf, betaQuantile } from '../../../domain/statistics/beta.ts'
import { normalCdf, normalQuantile, normalScores } from '../../../domain/statistics/normal.ts'
import { fillQuantiles, pertShape, STEPS, TABLE_LENGTH } from '../../../domain/statistics/pert-quantiles.ts'

const { jStat } = jstat
const WEEKS = { shortest: 4, likely: 5, longest: 12 }

describe('the modified PERT beta', () => {
  it('has the shape, mean and variance of its definition (Vose 2008), for 4, 5 and 12', () => {
    const { alpha, beta } = pertShape(WEEKS)
    expect([alpha, beta]).toEqual([1.5, 4.5])
    expect(4 + (8 * alpha) / (alpha + beta)).toBe(6)
    const variance = ((alpha * beta) / ((alpha + beta) ** 2 * (alpha + beta + 1))) * 8 ** 2
    expect(variance).toBeCloseTo(1.7142857, 7)
  })

  // Reckoned with two reference libraries that agree to 1e-12.
  test.each([
    [0.1, 4.478469],
    [0.5, 5.768959],
    [0.8, 7.102761],
    [0.9, 7.871226],
  ])('for 4, 5 and 12 is not above its quantile with %d', (probability, expected) => {
    expect(4 + 8 * betaQuantile(probability, pertShape(WEEKS))).toBeCloseTo(expected, 6)
  })

  it('agrees with jStat over its shapes and likelihoods', () => {
    for (let alpha = 1; alpha <= 5; alpha += 0.25) {
      for (const probability of [0.001, 0.01, 0.1, 0.3, 0.5, 0.8, 0.9, 0.99, 0.999]) {
        const own = betaQuantile(probability, { alpha, beta: 6 - alpha })
        expect(own).toBeCloseTo(jStat.beta.inv(probability, alpha, 6 - alpha), 6)
        expect(betaCdf(own, { alpha, beta: 6 - alpha })).toBeCloseTo(probability, 12)
      }
    }
  })

  it('reads from its table within 3 in 10,000 of the width, between the modes that are kept too', () => {
    const table = new Float64Array(TABLE_LENGTH)
    for (const likely of [0, 0.01, 0.11, 0.29, 0.5, 0.73, 0.985, 1]) {
      const points = { shortest: 0, likely, longest: 1 }
      fillQuantiles(table, points)
      for (let at = 0; at < TABLE_LENGTH; at += 1) {
        const exact = betaQuantile(normalCdf((at - (TABLE_LENGTH - 1) / 2) / STEPS), pertShape(points))
        expect(Math.abs((table[at] as number) - exact)).toBeLessThan(3e-4)
      }
    }
  })
})

describe('the normal distribution', () => {
  it('agrees with jStat and undoes itself', () => {
    for (let z = -4; z <= 4; z += 0.125) {
      expect(normalCdf(z)).toBeCloseTo(jStat.normal.cdf(z, 0, 1), 7)
      expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 9)
    }
    expect([normalCdf(-9), normalCdf(9)]).toEqual([0, 1])
  })

  it('has the quantiles that are printed for algorithm AS 241 (Wichura 1988)', () => {
    expect(normalQuantile(0.25)).toBeCloseTo(-0.6744897501960817, 13)
    expect(normalQuantile(0.001)).toBeCloseTo(-3.090232306167814, 12)
  })

  it('gives scores in order and the same on both sides', () => {
    const scores = normalScores(1000)
    expect([...scores]).toEqual([...scores].toSorted((a, b) => a - b))
    expect(scores.reduce((sum, score) => sum + score, 0)).toBeCloseTo(0, 9)
    expect(scores.reduce((sum, score) => sum + score * score, 0) / 1000).toBeCloseTo(1, 2)
  })
})
