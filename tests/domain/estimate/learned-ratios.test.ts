import { describe, expect, it, test } from 'vitest'
import { learnRatios } from '../../../domain/estimate/learned-ratios.ts'
import {
  learnLogRatios,
  nextRatio,
  priorFromTypes,
  USUAL_PRIOR,
} from '../../../domain/estimate/log-ratios.ts'
import { normalQuantile } from '../../../domain/statistics/normal.ts'
import { createRandom } from '../../support/random.ts'
import { ratioBand, type RatioHistory } from '../../support/ratio-band.ts'

const SIX = [1.1, 1.45, 0.95, 1.6, 1.25, 1.3]
const history = (own: readonly number[], others: RatioHistory['others'] = []): RatioHistory => ({
  own,
  others,
})

/** Lognormal, one from each of equally likely parts, in an order that looks random. */
function evenRatios(count: number, mean: number, deviation: number, seed: number): readonly number[] {
  const random = createRandom(seed)
  return Array.from({ length: count }, (_, at) =>
    Math.exp(mean + deviation * normalQuantile((at + 0.5) / count)),
  )
    .map((ratio) => [random.next(), ratio] as const)
    .toSorted(([a], [b]) => a - b)
    .map(([, ratio]) => ratio)
}

describe('hours learned from finished jobs', () => {
  // Normal-inverse-gamma, predictive Student's t (Murphy 2007, from memory), reckoned with a reference library.
  it('from six ratios are the published ones, within 1e-6', () => {
    const { method, ratios, rests } = ratioBand(history(SIX))
    expect(method).toBe('normal-inverse-gamma')
    expect(ratios.p50).toBeCloseTo(1.216369, 6)
    expect(ratios.p80).toBeCloseTo(1.439326, 6)
    expect(ratios.p90).toBeCloseTo(1.581841, 6)
    expect(rests).toEqual({ own: 6, others: 0 })
  })

  test.each([
    [0, 'prior'],
    [3, 'prior'],
    [4, 'normal-inverse-gamma'],
    [19, 'normal-inverse-gamma'],
    [20, 'order statistic'],
    [400, 'order statistic'],
  ] as const)('with %d jobs of the type go by the %s', (count, method) => {
    expect(ratioBand(history(evenRatios(count, 0.1, 0.3, 1))).method).toBe(method)
  })

  it('show below 4 jobs what the prior is worth', () => {
    const { prior } = ratioBand(history([1.4]))
    // exp(t(0.8; 4) x sqrt(0.05 x 2 / 2)) with t = 0.940965 of any printed table.
    expect(prior?.p50).toBe(1)
    expect(prior?.p80).toBeCloseTo(Math.exp(0.940965 * Math.sqrt(0.05)), 6)
  })

  it('go by the other types too, and say how many jobs those are', () => {
    expect(ratioBand(history(SIX, [[1.2, 1.3], [1.1, 1.3, 1.4], []])).rests).toEqual({ own: 6, others: 5 })
  })

  it('know what four of five of the jobs seen stayed at or under: the 17th of 20 ratios', () => {
    const learned = learnRatios(
      Array.from({ length: 20 }, (_, at) => Math.log(0.9 + at / 50)),
      [],
    )
    expect(learned.method === 'order statistic' && learned.seen80).toBeCloseTo(Math.log(1.22), 12)
  })

  it('follow what changed: the recent jobs run half as long again, and the 50 % figure is on its way there', () => {
    const changed = [...evenRatios(60, 0, 0.1, 5), ...evenRatios(40, Math.log(1.5), 0.1, 6)]
    expect(ratioBand(history(changed)).ratios.p50).toBeGreaterThan(1.25)
  })

  it('cover what they claim of 400 steady jobs, each forecast from those before', () => {
    const ratios = evenRatios(400, 0.1, 0.35, 7)
    const covered = { p50: 0, p80: 0, p90: 0 }
    for (let at = 20; at < ratios.length; at += 1) {
      const band = ratioBand(history(ratios.slice(0, at))).ratios
      for (const bound of ['p50', 'p80', 'p90'] as const) if (ratios[at]! <= band[bound]) covered[bound] += 1
    }
    // 95 % binomial intervals of 380 trials.
    expect(Math.abs(covered.p50 / 380 - 0.5)).toBeLessThan(0.05)
    expect(Math.abs(covered.p80 / 380 - 0.8)).toBeLessThan(0.04)
    expect(Math.abs(covered.p90 / 380 - 0.9)).toBeLessThan(0.03)
  })

  it('leave out ratios that are none', () => {
    expect(ratioBand(history([...SIX, 0, -1, NaN, Infinity]))).toEqual(ratioBand(history(SIX)))
  })

  it('stay numbers when all jobs took exactly their estimate', () => {
    for (const count of [5, 25, 60]) {
      const { p50, p80, p90 } = ratioBand(history(Array.from({ length: count }, () => 1))).ratios
      expect(p50).toBeCloseTo(1, 9)
      expect(p80).toBeLessThan(1.15)
      expect(p90).toBeGreaterThanOrEqual(p80)
    }
  })
})

describe('what other types tell of a new one', () => {
  const OWN_CARS = { cars: 1, correlation: 0 }

  it('is their mean, the surer the more types are alike', () => {
    const [four, twelve] = [4, 12].map((types) => {
      const alike = Array.from({ length: types }, (_, seed) =>
        evenRatios(25, 0.2, 0.3, seed + 1).map(Math.log),
      )
      return priorFromTypes([], alike, OWN_CARS)
    })
    // Four types of 0.2 on top of a prior of 0: between them and 0.
    expect(four!.mean).toBeGreaterThan(0.1)
    expect(twelve!.mean).toBeCloseTo(0.19, 1)
    expect(twelve!.jobs).toBeGreaterThan(2 * four!.jobs)
  })

  it('is little where types differ more than the jobs of one', () => {
    const apart = [-0.6, -0.2, 0.2, 0.6].map((mean) => evenRatios(25, mean, 0.1, 9).map(Math.log))
    const belief = priorFromTypes([], apart, OWN_CARS)
    expect(belief.jobs).toBe(0.5)
    // The expected variance of an inverse gamma is scale / (shape - 1): that within a type, not that of all.
    expect(Math.sqrt(belief.scale / (belief.shape - 1))).toBeLessThan(0.15)
  })

  it('is less where all jobs lie on one car, whose luck they share', () => {
    const logs = [1, 2, 3, 4].map((seed) => evenRatios(5, 0.1, 0.3, seed).map(Math.log))
    const on = (cars: number) => priorFromTypes([], logs, { cars, correlation: 0.3 })
    expect(on(1).jobs).toBeLessThan(on(5).jobs)
    expect(on(1).common).toBeCloseTo(on(5).common + 0.3 * (1 - 1 / 5), 12)
  })

  it('weighs as much as it says: the mean of jobs 1 and 1 with 0 and 3 of them', () => {
    const belief = learnLogRatios({ ...USUAL_PRIOR, jobs: 1 }, [0.4, 0.4, 0.4])
    expect(belief.mean).toBeCloseTo(0.3, 12)
    expect(nextRatio(belief, 0.5)).toBeCloseTo(Math.exp(0.3), 12)
  })
})
