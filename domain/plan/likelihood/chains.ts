/** An amount of something renewable that is taken for a time. */
export interface Use {
  readonly from: number
  readonly to: number
  readonly amount: number
}

/**
 * Who hands over to whom: each unit is given from one use to a later one, so that keeping these pairs in order keeps within
 * the capacity, whatever the times become (the chaining of Policella et al. 2004). A use takes the units that came free
 * last, so that what delays it stands before it. Pairs of indices; uses that take no time hand nothing over.
 */
export function chains(uses: readonly Use[], capacity: number): readonly (readonly [number, number])[] {
  const order = [...uses.keys()]
    .filter((index) => (uses[index] as Use).from < (uses[index] as Use).to)
    .toSorted((a, b) => (uses[a] as Use).from - (uses[b] as Use).from)
  const units: (number | null)[] = Array.from({ length: capacity }, () => null)
  const freeAt = (unit: number): number => {
    const last = units[unit] ?? null
    return last === null ? -Infinity : (uses[last] as Use).to
  }
  return order.flatMap((index) => {
    const { from, amount } = uses[index] as Use
    const taken = [...units.keys()]
      .filter((unit) => freeAt(unit) <= from)
      .toSorted((a, b) => freeAt(b) - freeAt(a))
      .slice(0, amount)
    const givers = new Set(taken.flatMap((unit) => units[unit] ?? []))
    for (const unit of taken) units[unit] = index
    return [...givers].map((giver) => [giver, index] as const)
  })
}
