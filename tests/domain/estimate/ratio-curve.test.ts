import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { learnRatios } from '../../../domain/estimate/learned-ratios.ts'
import { nextRatio } from '../../../domain/estimate/log-ratios.ts'
import { mixtureCdf, mixtureLog, type Part } from '../../../domain/estimate/mixture.ts'
import {
  curveOf,
  deviationOf,
  logAtScore,
  narrowed,
  scoreOfLog,
} from '../../../domain/estimate/ratio-curve.ts'
import { normalQuantile } from '../../../domain/statistics/normal.ts'

const SIX = [1.1, 1.45, 0.95, 1.6, 1.25, 1.3].map(Math.log)
/** Evenly spread over a normal of this mean and deviation, each next one far from the last; 124 is 201 by the golden ratio. */
const even = (mean: number, deviation: number): readonly number[] =>
  Array.from({ length: 201 }, (_, at) => mean + deviation * normalQuantile((((124 * at) % 201) + 0.5) / 201))

describe('a curve of ratios', () => {
  it('is exact at 50, 80 and 90 % for a belief', () => {
    const learned = learnRatios(SIX, [])
    if (learned.method === 'order statistic') throw new Error('Six jobs make a belief.')
    const curve = curveOf(learned)
    for (const likelihood of [0.5, 0.8, 0.9])
      expect(Math.exp(logAtScore(curve, normalQuantile(likelihood)))).toBeCloseTo(
        nextRatio(learned.belief, likelihood),
        9,
      )
  })

  it('of many jobs has the mean and the deviation that they have', () => {
    const curve = curveOf(learnRatios(even(0.2, 0.3), []))
    expect(logAtScore(curve, 0)).toBeCloseTo(0.2, 1)
    expect(deviationOf(curve)).toBeCloseTo(0.3, 1)
  })

  it('gives back the score of what it gives for a score, before its first and beyond its last knot too', () => {
    const logs = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { maxLength: 40 })
    fc.assert(
      fc.property(logs, fc.double({ min: -5, max: 5, noNaN: true }), (own, score) => {
        const curve = curveOf(learnRatios(own, []))
        const log = logAtScore(curve, score)
        expect(logAtScore(curve, scoreOfLog(curve, log))).toBeCloseTo(log, 6)
      }),
    )
  })

  it('drawn together keeps its middle', () => {
    const curve = curveOf(learnRatios(SIX, []))
    const half = narrowed(curve, 0.5)
    expect(logAtScore(half, 0)).toBe(logAtScore(curve, 0))
    expect(deviationOf(half)).toBeCloseTo(deviationOf(curve) / 2, 12)
  })
})

describe('a mixture', () => {
  const curve = curveOf(learnRatios(SIX, []))
  const parts: readonly Part[] = [
    { weight: 0.6, log: 0, spread: 1 },
    { weight: 0.3, log: 0.4, spread: 1.2 },
    { weight: 0.1, log: 0.9, spread: 1 },
  ]

  it('of one part is its curve', () => {
    const one = [{ weight: 1, log: 0.5, spread: 1 }]
    expect(mixtureLog(one, curve, 0.8)).toBeCloseTo(0.5 + logAtScore(curve, normalQuantile(0.8)), 9)
  })

  it('is not exceeded as often as it says, by weighing the parts', () => {
    for (const likelihood of [0.01, 0.2, 0.5, 0.8, 0.9, 0.99])
      expect(mixtureCdf(parts, curve, mixtureLog(parts, curve, likelihood))).toBeCloseTo(likelihood, 4)
  })

  it('has the tail of its worst part', () => {
    const [light] = parts
    expect(mixtureLog(parts, curve, 0.95)).toBeGreaterThan(
      mixtureLog([{ ...light!, weight: 1 }], curve, 0.95),
    )
  })
})
