import { describe, expect, it, test } from 'vitest'
import { learnOrder, orderBounds } from '../../../domain/estimate/order-bounds.ts'
import {
  orderStatisticBound,
  orderStatisticRank,
  smoothOrderStatistic,
} from '../../../domain/estimate/order-statistic.ts'

describe('the order statistic', () => {
  // ceil((n + 1) q), split conformal prediction (Vovk, Gammerman & Shafer 2005); by hand.
  test.each([
    [9, 0.9, 9],
    [19, 0.8, 16],
    [20, 0.8, 17],
    [8, 0.9, null],
    [9, 0.7, 7], // 10 x 0.7 is 7 and not the 8 that floating point could make of it
    [99, 0.55, 55], // 100 x 0.55 comes out as 55.00000000000001
    [0, 0.5, null],
  ])('of %d values for %d is the %s-th smallest', (count, probability, expected) => {
    expect(orderStatisticRank(count, probability)).toBe(expected)
  })

  it('is read from values in any order', () => {
    expect(orderStatisticBound([5, 1, 9, 3, 7, 2, 8, 4, 6], 0.9)).toBe(9)
    expect(orderStatisticBound([5, 1, 9, 3, 7, 2, 8, 4, 6], 0.5)).toBe(5)
    expect(orderStatisticBound([5, 1], 0.9)).toBeNull()
  })

  it('read from all values lies between those next to it and keeps a symmetric median', () => {
    const values = Array.from({ length: 99 }, (_, at) => at + 1)
    expect(smoothOrderStatistic(values, 0.5)).toBeCloseTo(50, 9)
    expect(Math.abs(smoothOrderStatistic(values, 0.8) - 80)).toBeLessThan(1)
  })
})

describe('bounds from the order of jobs', () => {
  const LOGS = [0.1, -0.2, 0.3, 0.05, -0.1, 0.4, 0, 0.2, -0.3, 0.15, 0.25, -0.05]
  const boundsOf = (logs: readonly number[]) =>
    orderBounds(learnOrder(logs, [0.5, 0.8, 0.9]), [0.5, 0.8, 0.9])

  it('move with the jobs: a type that always runs over is not thought to run over further', () => {
    const moved = boundsOf(LOGS.map((log) => log + 0.4))
    expect(moved).toEqual(boundsOf(LOGS).map((bound) => expect.closeTo(bound + 0.4, 12)))
  })
})
