import { describe, expect, it } from 'vitest'
import { percentSum, percentToShares, sharesToPercent } from '../../renderer/parts/form/percent-shares.ts'

describe('shares typed in percent', () => {
  it('are parts of one', () => {
    expect(percentToShares([60, 40])).toEqual([0.6, 0.4])
    expect(percentToShares([100, 0])).toEqual([1, 0])
  })

  it('add up to one whole, though thirds were rounded as they were typed', () => {
    const shares = percentToShares([33.3, 33.3, 33.3])!
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9)
    expect(percentToShares([33.4, 33.4, 33.3])).not.toBeNull()
  })

  it.each([
    ['less than the whole', [60, 39]],
    ['more than the whole', [60, 41]],
    ['one missing', [100, null]],
    ['one below nothing', [120, -20]],
    ['no figure', [100, Number.NaN]],
  ])('are none with %s', (_what, percents) => {
    expect(percentToShares(percents)).toBeNull()
  })

  it('are summed as far as they are typed', () => {
    expect(percentSum([60, null, Number.NaN, 15])).toBe(75)
  })
})

describe('shares shown in percent', () => {
  it('are whole and add up to 100, what was cut off going to those cut most', () => {
    expect(sharesToPercent([1 / 3, 1 / 3, 1 / 3])).toEqual([34, 33, 33])
    expect(sharesToPercent([0.125, 0.125, 0.75])).toEqual([13, 12, 75])
    expect(sharesToPercent([2 / 3, 1 / 3])).toEqual([67, 33])
  })

  it('stay as they are where they are whole: 0.29 is held as slightly less', () => {
    expect(sharesToPercent([0.29, 0.71])).toEqual([29, 71])
  })
})
