import { describe, expect, it } from 'vitest'
import { createResourceProfile } from '../../../domain/plan/solve/resource-profile.ts'
import { createRandom } from '../../support/random.ts'

describe('what is left of resources', () => {
  it('finds the first gap that is long enough for all that is asked', () => {
    const profile = createResourceProfile(
      [2, 3],
      [[{ resource: 0, amount: 2 }], [{ resource: 0, amount: 1 }], [{ resource: 1, amount: 3 }]],
    )
    profile.reserve(0, 3, 6)
    profile.reserve(1, 8, 10)
    expect(profile.earliest(1, 0, 3)).toBe(0)
    expect(profile.earliest(1, 0, 4)).toBe(6)
    expect(profile.earliest(0, 4, 2)).toBe(6)
    expect(profile.earliest(0, 4, 3)).toBe(10)
    expect(profile.earliest(2, 4, 3)).toBe(4)
    profile.clear()
    expect(profile.earliest(0, 4, 3)).toBe(4)
  })

  it('says what can never fit', () => {
    const profile = createResourceProfile(
      [2],
      [[{ resource: 0, amount: 3 }], [{ resource: 0, amount: 2 }], []],
    )
    expect([0, 1, 2].map(profile.canFit)).toEqual([false, true, true])
  })

  it('refuses a capacity that no word holds', () => {
    expect(() => createResourceProfile([2 ** 31], [])).toThrow('less than 2^31')
  })

  it('agrees with counting tick by tick, in one word and in several', () => {
    const random = createRandom(7)
    for (const capacities of [[3], [12, 13, 4, 12], [100, 100, 100, 100, 100], [2 ** 30, 5, 7]])
      for (let round = 0; round < 20; round += 1) expectToAgreeWithCounting(capacities, random)
  })
})

function expectToAgreeWithCounting(
  capacities: readonly number[],
  random: ReturnType<typeof createRandom>,
): void {
  const demands = Array.from({ length: 60 }, () =>
    capacities.map((capacity, resource) => ({
      resource,
      amount: random.between(0, Math.min(capacity, 2 + capacity / 2)),
    })),
  )
  const profile = createResourceProfile(capacities, demands)
  const used = capacities.map(() => new Float64Array(5000))
  const fits = (row: number, start: number, ticks: number): boolean =>
    demands[row]!.every(({ resource, amount }) =>
      used[resource]!.subarray(start, start + ticks).every(
        (taken) => taken + amount <= capacities[resource]!,
      ),
    )
  demands.forEach((uses, row) => {
    const ticks = random.between(0, 40)
    const from = random.between(0, 300)
    let start = from
    while (!fits(row, start, ticks)) start += 1
    expect(profile.earliest(row, from, ticks)).toBe(start)
    profile.reserve(row, start, start + ticks)
    for (const { resource, amount } of uses)
      for (let tick = start; tick < start + ticks; tick += 1) used[resource]![tick]! += amount
  })
}
