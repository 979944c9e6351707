import { describe, expect, it, test } from 'vitest'
import { hoursBand, type HoursBand, type RatioHistory } from '../../../domain/estimate/hours-band.ts'
import {
  learnLogRatios,
  nextRatio,
  priorFromTypes,
  USUAL_PRIOR,
} from '../../../domain/estimate/log-ratios.ts'
import { normalQuantile } from '../../../domain/statistics/normal.ts'
import { createRandom } from '../../support/random.ts'

const SIX = [1.1, 1.45, 0.95, 1.6, 1.25, 1.3]
const history = (own: readonly number[], others: RatioHistory['others'] = []): RatioHistory => ({
  own,
  others,
})

function bandOf(past: RatioHistory, hours = 1): HoursBand {
  const band = hoursBand(past, hours)
  if (band === null) throw new Error('There should be a band.')
  return band
}

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
    const { method, ratios, rests } = bandOf(history(SIX))
    expect(method).toBe('normal-inverse-gamma')
    expect(ratios.p50).toBeCloseTo(1.216369, 6)
    expect(ratios.p80).toBeCloseTo(1.439326, 6)
    expect(ratios.p90).toBeCloseTo(1.581841, 6)
    expect(rests).toEqual({ own: 6, others: 0 })
  })

  it('are multiples of the estimate', () => {
    const { hours, ratios } = bandOf(history(SIX), 40)
    expect(hours).toEqual({ p50: 40 * ratios.p50, p80: 40 * ratios.p80, p90: 40 * ratios.p90 })
  })

  test.each([
    [0, 'prior'],
    [3, 'prior'],
    [4, 'normal-inverse-gamma'],
    [19, 'normal-inverse-gamma'],
    [20, 'order statistic'],
    [400, 'order statistic'],
  ] as const)('with %d jobs of the type go by the %s', (count, method) => {
    expect(bandOf(history(evenRatios(count, 0.1, 0.3, 1))).method).toBe(method)
  })

  it('show the prior below 4 jobs and say what it is worth', () => {
    const { prior, words } = bandOf(history([1.4]))
    // exp(t(0.8; 4) x sqrt(0.05 x 2 / 2)) with t = 0.940965 of any printed table.
    expect(prior?.p50).toBe(1)
    expect(prior?.p80).toBeCloseTo(Math.exp(0.940965 * Math.sqrt(0.05)), 6)
    expect(words).toBe(
      'Only 1 finished job of this type; it rests mostly on the usual prior: half at or under 1.00 times the estimate, four of five at or under 1.23 times.',
    )
  })

  it('say in words that six jobs of the type, and which other ones, are gone by', () => {
    const { words, rests } = bandOf(history(SIX, [[1.2, 1.3], [1.1, 1.3, 1.4], []]))
    expect(rests).toEqual({ own: 6, others: 5 })
    expect(words).toMatch(
      /^Learned from 6 finished jobs of this type .* 5 finished jobs of other types: half at or under /,
    )
  })

  it('say that the recent jobs count most after the work has changed', () => {
    const changed = [...evenRatios(40, 0, 0.1, 2), ...evenRatios(40, 0.5, 0.1, 3)]
    expect(bandOf(history(changed)).words).toMatch(/recent ones count most; they ran [3-6]\d % over/)
    expect(bandOf(history(evenRatios(30, 0, 0.1, 4))).words).toMatch(
      /^Read from 30 finished jobs of this type/,
    )
  })

  it('say what four of five of the jobs seen stayed at or under: the 17th of 20 ratios', () => {
    const twenty = Array.from({ length: 20 }, (_, at) => 0.9 + at / 50)
    expect(bandOf(history(twenty)).words).toContain(
      'Read from 20 finished jobs of this type in order of size (order statistic): four of five stayed at or under 1.22 times the estimate.',
    )
  })

  it('follow what changed: the recent jobs run half as long again, and the 50 % figure is on its way there', () => {
    const changed = [...evenRatios(60, 0, 0.1, 5), ...evenRatios(40, Math.log(1.5), 0.1, 6)]
    expect(bandOf(history(changed)).ratios.p50).toBeGreaterThan(1.25)
  })

  it('cover what they claim of 400 steady jobs, each forecast from those before', () => {
    const ratios = evenRatios(400, 0.1, 0.35, 7)
    const covered = { p50: 0, p80: 0, p90: 0 }
    for (let at = 20; at < ratios.length; at += 1) {
      const band = bandOf(history(ratios.slice(0, at))).ratios
      for (const bound of ['p50', 'p80', 'p90'] as const) if (ratios[at]! <= band[bound]) covered[bound] += 1
    }
    // 95 % binomial intervals of 380 trials.
    expect(Math.abs(covered.p50 / 380 - 0.5)).toBeLessThan(0.05)
    expect(Math.abs(covered.p80 / 380 - 0.8)).toBeLessThan(0.04)
    expect(Math.abs(covered.p90 / 380 - 0.9)).toBeLessThan(0.03)
  })

  test.each([0, -4, NaN, Infinity])('are not there for an estimate of %d hours', (hours) => {
    expect(hoursBand(history(SIX), hours)).toBeNull()
  })

  it('leave out ratios that are none', () => {
    expect(bandOf(history([...SIX, 0, -1, NaN, Infinity]))).toEqual(bandOf(history(SIX)))
  })

  it('stay numbers when all jobs took exactly their estimate', () => {
    for (const count of [5, 25, 60]) {
      const { p50, p80, p90 } = bandOf(history(Array.from({ length: count }, () => 1))).ratios
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
