import { describe, expect, it, test } from 'vitest'
import {
  accuracyByGroup,
  accuracyOf,
  mixedBias,
  type ForecastJob,
} from '../../../domain/estimate/accuracy.ts'

const job = (changes: Partial<ForecastJob> = {}): ForecastJob => ({
  group: 'sill',
  estimated: 20,
  p50: 22,
  p80: 28,
  actual: 21,
  ...changes,
})
const FIVE = [24, 18, 30, 21, 26].map((actual) => job({ actual }))

describe('were we right', () => {
  it('counts the jobs at or under the figures, a job on the figure among them', () => {
    const { jobs, within50, within80 } = accuracyOf([...FIVE, job({ actual: 22 }), job({ actual: 28 })])
    expect([jobs, within50?.count, within80?.count]).toEqual([7, 3, 6])
  })

  // Beta(8, 4), reckoned with two reference libraries.
  it('says what share 7 of 10 tells of', () => {
    const ten = [
      ...Array.from({ length: 7 }, () => job()),
      ...Array.from({ length: 3 }, () => job({ actual: 25 })),
    ]
    const share = accuracyOf(ten).within50?.share
    expect([share?.low, share?.high].map((value) => value?.toFixed(6))).toEqual(['0.390257', '0.890737'])
  })

  it('tells the bias as a multiple with its interval (ratios 1.2 .9 1.5 1.05 1.3, reckoned with scipy 1.17)', () => {
    const bias = accuracyOf(FIVE).bias
    expect(bias?.median).toBeCloseTo(1.2, 9)
    expect(bias?.mean).toBeCloseTo(1.1720052, 6)
    expect(bias?.interval?.low).toBeCloseTo(0.9185856, 6)
    expect(bias?.interval?.high).toBeCloseTo(1.4953383, 6)
  })

  it('takes the middle of two for the median of an even count', () => {
    expect(accuracyOf([job({ actual: 10 }), job({ actual: 40 })]).bias?.median).toBeCloseTo(1, 12)
  })

  it('knows nothing without jobs and no interval with one', () => {
    expect(accuracyOf([])).toEqual({ jobs: 0, leftOut: 0, within50: null, within80: null, bias: null })
    expect(accuracyOf([job()]).bias?.interval).toBeNull()
  })

  test.each([{ estimated: 0 }, { actual: 0 }, { actual: NaN }, { p80: Infinity }])(
    'leaves out a job with %o and says so',
    (changes) => {
      const { jobs, leftOut } = accuracyOf([job(), job(changes)])
      expect([jobs, leftOut]).toEqual([1, 1])
    },
  )

  it('judges the last jobs of all and of each group', () => {
    const late = [job({ group: 'arch', actual: 40 }), ...FIVE, job({ group: 'arch' })]
    const { all, groups } = accuracyByGroup(late, 2)
    expect(all.jobs).toBe(2)
    expect(all.within50?.count).toBe(1)
    expect(groups.get('arch')?.within50?.count).toBe(1)
    expect(groups.get('sill')?.jobs).toBe(2)
    expect(groups.get('sill')?.within50?.count).toBe(1)
  })
})

describe('the bias of a mixed estimate', () => {
  // UK Green Book, supplementary guidance on optimism bias: 30 % non-standard and 70 % standard buildings.
  test.each([
    [51, 24, 32.1],
    [39, 4, 14.5],
  ])('of %d %% and %d %% is %d %%', (nonStandard, standard, expected) => {
    const parts = [
      { share: 0.3, bias: nonStandard },
      { share: 0.7, bias: standard },
    ]
    expect(mixedBias(parts)).toBeCloseTo(expected, 9)
  })

  it('is not there when the shares leave something out', () => {
    expect(mixedBias([{ share: 0.3, bias: 51 }])).toBeNull()
  })
})
