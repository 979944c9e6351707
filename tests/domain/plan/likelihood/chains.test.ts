import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chains } from '../../../../domain/plan/likelihood/chains.ts'

const use = (from: number, to: number, amount = 1) => ({ from, to, amount })

describe('who hands over to whom', () => {
  it('gives a single place from one to the next', () => {
    expect(chains([use(10, 20), use(0, 5), use(20, 30)], 1)).toEqual([
      [1, 0],
      [0, 2],
    ])
  })

  it('takes what came free last, so that the use that delayed it stands before it', () => {
    expect(chains([use(0, 5), use(0, 9), use(9, 12)], 2)).toEqual([[1, 2]])
  })

  it('takes from several for a use of several', () => {
    expect(chains([use(0, 5), use(0, 9), use(9, 12, 2)], 2)).toEqual([
      [1, 2],
      [0, 2],
    ])
  })

  it('passes over what takes no time', () => {
    expect(chains([use(0, 5), use(5, 5), use(5, 9)], 1)).toEqual([[0, 2]])
  })

  it('never lets more units be handed on than there are, whatever becomes of the times', () => {
    const uses = fc.array(fc.tuple(fc.nat(20), fc.integer({ min: 1, max: 9 })), { maxLength: 12 })
    fc.assert(
      fc.property(uses, (drawn) => {
        const all = drawn.map(([from, length]) => use(from, from + length))
        const most = Math.max(
          1,
          ...all.map(({ from }) => all.filter((each) => each.from <= from && from < each.to).length),
        )
        const pairs = chains(all, most)
        // With one unit each, everything that is not the first of a unit has one that hands over to it.
        expect(all.length - new Set(pairs.map(([, after]) => after)).size).toBeLessThanOrEqual(most)
        for (const [before, after] of pairs) expect(all[before]!.to).toBeLessThanOrEqual(all[after]!.from)
        expect(new Set(pairs.map(([before]) => before)).size).toBe(pairs.length)
      }),
    )
  })
})
