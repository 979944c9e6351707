import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { OneSided } from '../../../domain/estimate/learned-ratios.ts'
import { orderStatisticBound } from '../../../domain/estimate/order-statistic.ts'
import { ratioBand } from '../../support/ratio-band.ts'

const ratio = fc.double({ min: 0.2, max: 6, noNaN: true })
const ratios = (maxLength: number) => fc.array(ratio, { maxLength })
const histories = fc.record({ own: ratios(60), others: fc.array(ratios(12), { maxLength: 4 }) })

/** Sums in another order differ in their last digits. */
function expectClose(one: OneSided, other: OneSided): void {
  for (const bound of ['p50', 'p80', 'p90'] as const) expect(one[bound] / other[bound]).toBeCloseTo(1, 9)
}

describe('for any history', () => {
  it('the figures are numbers above 0 and in order, after each further job', () => {
    fc.assert(
      fc.property(histories, ratio, (history, next) => {
        for (const own of [history.own, [...history.own, next]]) {
          const { p50, p80, p90 } = ratioBand({ ...history, own }).ratios
          expect(p50).toBeGreaterThan(0)
          expect(p80).toBeGreaterThanOrEqual(p50)
          expect(p90).toBeGreaterThanOrEqual(p80)
          expect(Number.isFinite(p90)).toBe(true)
        }
      }),
    )
  })

  it('below 20 jobs of the type their order does not matter, nor ever that of other types', () => {
    fc.assert(
      fc.property(ratios(19), fc.array(ratios(12), { maxLength: 4 }), (own, others) => {
        const turned = { own: own.toReversed(), others: others.toReversed().map((each) => each.toReversed()) }
        expectClose(ratioBand({ own, others }).ratios, ratioBand(turned).ratios)
      }),
    )
  })

  it('below 20 jobs the 90 % figure never falls when the longest job, over its estimate, had taken longer', () => {
    fc.assert(
      fc.property(
        fc.array(ratio, { maxLength: 18 }),
        fc.double({ min: 1, max: 6, noNaN: true }),
        (rest, share) => {
          const longest = Math.max(1, ...rest) * share
          const [p90, longer] = [longest, 1.5 * longest].map(
            (last) => ratioBand({ own: [...rest, last], others: [] }).ratios.p90,
          ) as [number, number]
          expect(longer).toBeGreaterThan(p90)
        },
      ),
    )
  })

  it('at least so many of the jobs seen are at or under the order statistic', () => {
    fc.assert(
      fc.property(ratios(60), fc.constantFrom(0.5, 0.8, 0.9), (own, probability) => {
        const bound = orderStatisticBound(own, probability)
        const shuffled = orderStatisticBound(own.toReversed(), probability)
        expect(shuffled).toBe(bound)
        if (bound === null) return
        expect(own.filter((each) => each <= bound).length).toBeGreaterThanOrEqual(
          (own.length + 1) * probability - 1e-9,
        )
      }),
    )
  })
})
