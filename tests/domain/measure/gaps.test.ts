import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  compareSides,
  judgeEdge,
  sidesWords,
  summariseEdge,
  type EdgeReading,
} from '../../../domain/measure/gaps.ts'

const edge = (gapsMm: readonly number[], flushMm = 0): EdgeReading => ({ gapsMm, flushMm })
// Gaps of older cars are often 3 to 5 mm, set per car: common practice, no source.
const limits = { nominalMm: 4, toleranceMm: 1, flushToleranceMm: 0.5 }

describe('gaps along an edge', () => {
  test('they come to a minimum, a maximum, a mean, a taper and a step', () => {
    expect(summariseEdge(edge([3.5, 4, 5.1, 4.2], -0.3))).toEqual({
      ok: true,
      value: { minMm: 3.5, maxMm: 5.1, meanMm: 4.2, taperMm: expect.closeTo(1.6, 10), flushMm: -0.3 },
    })
  })

  test('gaps and step inside tolerance are inside, the limits themselves too', () => {
    expect(judgeEdge(edge([3, 4, 5], 0.5), limits)).toEqual({ inside: true, problems: [] })
    expect(judgeEdge(edge([3, 4, 5], -0.5), limits).inside).toBe(true)
  })

  test('floating point does not fail a gap at its limit', () => {
    // In binary 2.3 + 0.3 is less than 2.6, and 2.1 - 0.2 more than 1.9.
    const judged = (gap: number, nominalMm: number, toleranceMm: number) =>
      judgeEdge(edge([gap]), { nominalMm, toleranceMm, flushToleranceMm: 0 })
    expect(judged(2.6, 2.3, 0.3)).toEqual({ inside: true, problems: [] })
    expect(judged(1.9, 2.1, 0.2)).toEqual({ inside: true, problems: [] })
  })

  test('the narrowest and the widest gap are named when they are outside', () => {
    expect(judgeEdge(edge([2.9, 4, 5.05]), limits)).toEqual({
      inside: false,
      problems: [
        'narrowest gap is 2.9 mm; at least 3 mm is needed',
        'widest gap is 5.05 mm; at most 5 mm is allowed',
      ],
    })
  })

  test('a part that stands proud or low is named', () => {
    expect(judgeEdge(edge([4], 0.8), limits).problems).toEqual([
      'edge stands 0.8 mm proud; at most 0.5 mm is allowed',
    ])
    expect(judgeEdge(edge([4], -0.6), limits).problems).toEqual([
      'edge stands 0.6 mm low; at most 0.5 mm is allowed',
    ])
  })

  test('panels that overlap are a narrow gap', () => {
    expect(judgeEdge(edge([-1, 4]), limits).problems).toEqual([
      'narrowest gap is -1 mm; at least 3 mm is needed',
    ])
  })

  test('an edge without readings is not inside', () => {
    expect(judgeEdge(edge([]), limits)).toEqual({
      inside: false,
      problems: ['This edge has no gap reading.'],
    })
    expect(judgeEdge(edge([4, Number.NaN]), limits).inside).toBe(false)
    expect(judgeEdge(edge([4], Number.NaN), limits).inside).toBe(false)
  })

  test('any readings have their mean between minimum and maximum, and taper is never negative', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -5, max: 60, noNaN: true }), { minLength: 1, maxLength: 40 }),
        (gaps) => {
          const summary = summariseEdge(edge(gaps))
          if (!summary.ok) throw new Error(summary.refusal.message)
          const { minMm, maxMm, meanMm, taperMm } = summary.value
          expect(meanMm).toBeGreaterThanOrEqual(minMm - 1e-9)
          expect(meanMm).toBeLessThanOrEqual(maxMm + 1e-9)
          expect(taperMm).toBeGreaterThanOrEqual(0)
          expect(gaps.every((gap) => gap >= minMm && gap <= maxMm)).toBe(true)
        },
      ),
    )
  })
})

describe('left compared with right', () => {
  const words = (left: EdgeReading, right: EdgeReading): string => {
    const compared = compareSides(left, right)
    if (!compared.ok) throw new Error(compared.refusal.message)
    return sidesWords(compared.value)
  }

  test('sides alike are said to be alike', () => {
    expect(words(edge([4, 4.2, 4.4], 0.2), edge([4, 4.2, 4.4], 0.2))).toBe('gaps alike; as flush')
  })

  test('opposite tapers differ place by place though their means are the same', () => {
    expect(compareSides(edge([3, 4, 5]), edge([5, 4, 3]))).toMatchObject({
      value: { meanDifferenceMm: 0, widestDifferenceMm: -2 },
    })
    expect(words(edge([3, 4, 5]), edge([5, 4, 3]))).toBe(
      'gaps differ by 2 mm at one place, the right wider; as flush',
    )
  })

  test('sides read at different numbers of places are compared by their mean', () => {
    expect(words(edge([5, 5, 5]), edge([4, 4]))).toBe(
      'gaps differ by 1 mm on average, the left wider; as flush',
    )
  })

  test('a step on one side only is named', () => {
    expect(compareSides(edge([4], -0.4), edge([4], 0.8))).toMatchObject({
      value: { flushDifferenceMm: expect.closeTo(-1.2, 10) },
    })
    expect(words(edge([4], -0.4), edge([4], 0.8))).toBe('gaps alike; the right stands 1.2 mm prouder')
  })

  test('a side without readings cannot be compared', () => {
    const refused = { ok: false, refusal: { code: 'bad-input', next: 'Read the gap at one place at least.' } }
    expect(compareSides(edge([]), edge([4]))).toMatchObject(refused)
    expect(compareSides(edge([4]), edge([]))).toMatchObject(refused)
  })
})
