/** An amount that is taken from `from` up to, not including, `to`. */
export interface Use {
  readonly from: number
  readonly to: number
  readonly amount: number
}

/** The first tick at which more than `capacity` is taken; null when there is none. */
export function firstOverload(uses: readonly Use[], capacity: number): number | null {
  const changes = uses
    .filter((use) => use.from < use.to)
    .flatMap((use) => [
      { tick: use.from, amount: use.amount },
      { tick: use.to, amount: -use.amount },
    ])
    // What ends makes room for what starts at the same tick.
    .toSorted((a, b) => a.tick - b.tick || a.amount - b.amount)
  let taken = 0
  for (const { tick, amount } of changes) {
    taken += amount
    if (taken > capacity) return tick
  }
  return null
}

export const doOverlap = (
  one: { readonly from: number; readonly to: number },
  other: { readonly from: number; readonly to: number },
): boolean => Math.max(one.from, other.from) < Math.min(one.to, other.to)
