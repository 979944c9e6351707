import { describe, expect, it, test } from 'vitest'
import { pinballLoss } from '../../../domain/statistics/pinball.ts'
import { proportionOf } from '../../../domain/statistics/proportion.ts'
import { studentTQuantile } from '../../../domain/statistics/student-t.ts'
import { normalCdf, normalQuantile } from '../../../domain/statistics/normal.ts'

describe("Student's t", () => {
  // Reckoned with mpmath in 40 digits; the ones for 1 and 4 degrees stand in every printed table.
  test.each([
    [0.8, 1, 1.376381920471174],
    [0.8, 4, 0.9409645772351813],
    [0.8, 23.5, 0.8571852118879576],
    [0.8, 1000, 0.8419808221624288],
    [0.975, 1, 12.706204736174694],
    [0.975, 4, 2.7764451051977934],
    [0.975, 23.5, 2.066224860799827],
    [0.975, 1000, 1.962339080826408],
  ])('is not above its quantile with %d at %d degrees', (probability, degrees, expected) => {
    expect(studentTQuantile(probability, degrees) / expected).toBeCloseTo(1, 11)
    expect(studentTQuantile(1 - probability, degrees) / expected).toBeCloseTo(-1, 11)
  })

  it('has its median at 0', () => {
    expect(studentTQuantile(0.5, 3)).toBe(0)
  })
})

/**
 * Continuous ranked probability score: twice the pinball loss over all probabilities (Gneiting & Ranjan 2011), so that it
 * checks quantiles and loss together. Tanh-sinh quadrature on both sides of where the value itself lies.
 */
function crps(quantile: (probability: number) => number, value: number, at: number): number {
  const loss = (probability: number): number => 2 * pinballLoss(value, quantile(probability), probability)
  return quadrature(loss, 0, at) + quadrature(loss, at, 1)
}

function quadrature(f: (x: number) => number, from: number, to: number): number {
  const step = 1 / 64
  let sum = 0
  for (let k = -250; k <= 250; k += 1) {
    const u = (Math.PI / 2) * Math.sinh(k * step)
    const x = from + (to - from) / (1 + Math.exp(-2 * u))
    const weight = ((Math.PI / 2) * Math.cosh(k * step)) / Math.cosh(u) ** 2
    if (x > 1e-15 && x < 1 - 1e-15 && weight > 0) sum += (weight * f(x) * step * (to - from)) / 2
  }
  return sum
}

// Values printed in the tests of the R package scoringRules.
describe('the continuous ranked probability score of the quantiles', () => {
  it('is that of the standard normal at -3', () => {
    expect(crps(normalQuantile, -3, normalCdf(-3))).toBeCloseTo(2.43657473, 8)
  })

  it("is that of Student's t with 5 degrees at -3", () => {
    const below = 0.015049623948731284 // P(T <= -3), in closed form for odd degrees
    expect(studentTQuantile(below, 5)).toBeCloseTo(-3, 10)
    expect(crps((probability) => studentTQuantile(probability, 5), -3, below)).toBeCloseTo(2.33875895, 8)
  })

  it('is that of the lognormal (0.1, 0.9) at 3', () => {
    const quantile = (probability: number): number => Math.exp(0.1 + 0.9 * normalQuantile(probability))
    expect(crps(quantile, 3, normalCdf((Math.log(3) - 0.1) / 0.9))).toBeCloseTo(1.13552645, 8)
  })
})

describe('the pinball loss', () => {
  // scikit-learn's example of mean_pinball_loss: values 1, 2, 3, forecast 1, 2, 4; .3 at .1 and .033333 at .9 is its mean.
  test.each([
    [0.1, 0.3],
    [0.9, 1 / 30],
  ])('at %d weighs one too high', (probability, expected) => {
    const losses = [1, 2, 3].map((value, at) => pinballLoss(value, [1, 2, 4][at]!, probability))
    expect(losses.reduce((sum, loss) => sum + loss, 0) / 3).toBeCloseTo(expected, 12)
  })

  it('weighs one too low by the probability', () => {
    expect(pinballLoss(10, 6, 0.8)).toBeCloseTo(3.2, 12)
  })
})

describe('a share with its 95 % interval', () => {
  // Gelman et al., Bayesian Data Analysis, placenta praevia: from memory, reckoned again.
  it('of 437 of 980 is .446, .415 to .477', () => {
    const { mean, low, high } = proportionOf(437, 980)
    expect([mean, low, high].map((value) => Number(value.toFixed(3)))).toEqual([0.446, 0.415, 0.477])
  })

  // Beta(8, 4), reckoned with two reference libraries.
  it('of 7 of 10 is 2/3, .390257 to .890737', () => {
    const { mean, low, high } = proportionOf(7, 10)
    expect(mean).toBeCloseTo(2 / 3, 12)
    expect(low).toBeCloseTo(0.390257, 6)
    expect(high).toBeCloseTo(0.890737, 6)
  })
})
