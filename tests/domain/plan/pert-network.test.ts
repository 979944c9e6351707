import { describe, expect, it } from 'vitest'
import { pertNetwork } from '../../../domain/plan/pert-network.ts'
import { PORTA_VAC, RELIABLE_CONSTRUCTION } from '../../support/networks.ts'

describe('a network of three-point estimates', () => {
  it('ends as the textbook says of the vacuum cleaner', () => {
    // Anderson, Sweeney & Williams, ch. 9: 17 weeks along A-E-H-I-J; chance by week 20 reckoned again, .9655.
    const end = pertNetwork(PORTA_VAC.points, PORTA_VAC.links)
    expect(end.mean).toBeCloseTo(17, 12)
    expect(end.variance).toBeCloseTo(2.7222, 4)
    expect(end.chanceBy(20)).toBeCloseTo(0.9655, 4)
  })

  it('ends as the textbook says of the plant', () => {
    // Hillier & Lieberman, Introduction to Operations Research: mean 44, variance 9, and P(Z <= 1) = .841345.
    const end = pertNetwork(RELIABLE_CONSTRUCTION.points, RELIABLE_CONSTRUCTION.links)
    expect(end.mean).toBeCloseTo(44, 12)
    expect(end.variance).toBeCloseTo(9, 12)
    expect(end.chanceBy(47)).toBeCloseTo(0.841345, 6)
  })

  it('takes of equally long paths the less sure one, and counts what cures between', () => {
    const point = (shortest: number, likely: number, longest: number) => ({ shortest, likely, longest })
    const end = pertNetwork(
      [point(3, 3, 3), point(0, 3, 6), point(1, 1, 1)],
      [
        { before: 0, after: 2, lag: 2 },
        { before: 1, after: 2, lag: 2 },
      ],
    )
    expect(end.mean).toBe(6)
    expect(end.variance).toBe(1)
  })
})
