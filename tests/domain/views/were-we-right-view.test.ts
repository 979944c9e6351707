import { describe, expect, test } from 'vitest'
import type { JudgedRepair } from '../../../domain/estimate/judged-repair.ts'
import { personIdSchema } from '../../../domain/ids.ts'
import { wereWeRightView, type WereWeRightInput } from '../../../domain/views/were-we-right-view.ts'
import { judged } from '../../support/judged.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const mara = personIdSchema.parse('person-mara')
const joss = personIdSchema.parse('person-joss')

const view = (finished: readonly JudgedRepair[], over: Partial<WereWeRightInput> = {}) =>
  wereWeRightView({
    finished,
    when: 'accepted',
    last: null,
    workshop: buildWorkshop(),
    nameOf,
    by: mara,
    repairName: ({ repairId }) => repairId,
    ...over,
  })

/** So many that took 9 h, 12 h and 20 h, of which 11 h was said with 50 % and 14 h with 80 %. */
const history = (under: number, between: number, over: number): readonly JudgedRepair[] =>
  [
    ...Array.from({ length: under }, () => 9),
    ...Array.from({ length: between }, () => 12),
    ...Array.from({ length: over }, () => 20),
  ].map((actual, index) => judged(index + 1, actual))

describe('were we right', () => {
  test('counts how often the hours stayed at or under what was said, and says that it is as it should be', () => {
    const { all } = view(history(20, 11, 9))
    expect([all.within50?.count, all.within80?.count, all.jobs]).toEqual([20, 31, 40])
    expect(all.within80?.words).toBe('80 % figures held for 31 of 40, as they should')
    expect(all.within50?.words).toBe('50 % figures held for 20 of 40, as they should')
    // 7 of 10 with a uniform prior: 95 % from .390257 to .890737 (beta quantiles of a reference library).
    const { share } = view(history(4, 3, 3)).all.within80!
    expect(share.low).toBeCloseTo(0.390257, 6)
    expect(share.high).toBeCloseTo(0.890737, 6)
  })

  test('says when figures were too low, and when they were higher than needed', () => {
    expect(view(history(10, 14, 16)).all.within80?.words).toBe(
      '80 % figures were too low: they held for 24 of 40',
    )
    expect(view(history(40, 0, 0)).all.within80?.words).toBe(
      '80 % figures were higher than needed: they held for 40 of 40',
    )
  })

  test('says of few repairs that they are too few, but not where even few leave no doubt', () => {
    const few = view(history(1, 2, 1))
    expect(few.all.within80?.words).toBe('80 % figures held for 3 of 4: too few to tell')
    expect(few.few).toBe(
      '4 repairs are finished of which hours were said; the figures become useful from 20 on.',
    )
    expect(view(history(0, 0, 6)).all.within80?.verdict).toBe('too low')
    expect(view(history(10, 6, 4)).few).toBeNull()
  })

  test('judges by what was said then, and takes what was said once assessed on its own', () => {
    const repairs = [
      judged(1, 20, { assessed: { p50: 18, p80: 22 } }),
      judged(2, 9),
      judged(3, 9, { isStated: false }),
    ]
    const before = view(repairs)
    expect([before.stated, before.unstated, before.all.within80?.count]).toEqual([2, 1, 1])
    const assessed = view(repairs, { when: 'assessed' })
    expect([assessed.stated, assessed.unstated, assessed.all.within80?.count]).toEqual([1, 2, 1])
  })

  test('looks at the last ones, of all and of each type, and draws them in the order of finishing', () => {
    const repairs = [
      ...[20, 20, 20].map((actual, at) => judged(at + 1, actual, { type: 'arch' })),
      ...[9, 9, 20].map((actual, at) => judged(at + 4, actual)),
    ]
    const { all, byType, dots } = view(repairs, { last: 2 })
    expect([all.within80?.count, all.jobs]).toEqual([1, 2])
    expect(dots.map(({ repairId }) => repairId)).toEqual(['repair-5', 'repair-6'])
    expect(byType.map(({ key, jobs, finished, within80 }) => [key, jobs, finished, within80?.count])).toEqual(
      [
        ['type-arch', 2, 3, 0],
        ['type-sill', 2, 3, 1],
      ],
    )
  })

  test('tells how far estimates were off, and whether the jobs can tell', () => {
    // Twelve each at 1.2 and 1.25 times: the geometric mean is the root of their product, 1.2247.
    const over = Array.from({ length: 24 }, (_, at) => judged(at + 1, at % 2 === 0 ? 12 : 12.5))
    const { bias } = view(over).all
    expect(bias?.mean).toBeCloseTo(Math.sqrt(1.2 * 1.25), 10)
    expect(bias?.words).toBe('Real hours ran 22 % over the estimate; likely +21 % to +24 %')
    const both = [8, 12.5, 8, 12.5].map((actual, at) => judged(at + 1, actual))
    expect(view(both).all.bias?.words).toMatch(/they may lean neither way$/)
    expect(view([judged(1, 8)]).all.bias?.words).toBe(
      'Real hours ran 20 % under the estimate; 1 job cannot tell more',
    )
  })

  test('says by which method each type is banded now and on how many repairs, judged or not', () => {
    const many = Array.from({ length: 20 }, (_, at) => judged(at + 1, 10, { isStated: false }))
    const some = Array.from({ length: 4 }, (_, at) => judged(at + 21, 10, { type: 'arch' }))
    const none = [judged(30, 10, { type: null })]
    expect(
      view([...many, ...some, ...none]).byType.map(({ key, methodWords }) => [key, methodWords]),
    ).toEqual([
      ['type-arch', 'Learned from 4 finished repairs, starting from the other types'],
      ['no type', 'Banded by the other types, with 1 finished repair of its own'],
      ['type-sill', 'Read from 20 finished repairs in order of size'],
    ])
  })

  test('undefined figures are null where nothing is finished', () => {
    const { all, byType, dots } = view([])
    expect([all.within50, all.within80, all.bias, byType, dots]).toEqual([null, null, null, [], []])
  })
})

describe('figures by who estimated', () => {
  const repairs = [
    judged(1, 9, { estimator: mara }),
    judged(2, 20, { estimator: joss }),
    judged(3, 9, { estimator: null }),
  ]
  const workshop = buildWorkshop()
  const shown = { ...workshop, settings: { ...workshop.settings, figuresByPerson: true } }

  test('are off until the manager turns them on', () => {
    expect(view(repairs).byEstimator).toBeNull()
    expect(view(repairs, { workshop: shown, by: null }).byEstimator).toBeNull()
  })

  test('show a manager everybody and others only themselves', () => {
    const keys = (by: typeof mara) =>
      view(repairs, { workshop: shown, by }).byEstimator?.map(({ key }) => key)
    expect(keys(mara)).toEqual([mara, joss])
    expect(keys(joss)).toEqual([joss])
  })
})
