import type { Link } from '../problem.ts'

/** Why work goes before all other. */
export interface FirstReason {
  readonly begun: boolean
  /** Its start in the plan in force when that lies within the frozen days. */
  readonly frozen: number | null
  /** Its pinned day's first tick. */
  readonly pinned: number | null
}

/**
 * By activity: its place among those that go first, or null. Begun work, then that of the frozen days in its order there,
 * then what is pinned to a day by its day; what any of it waits for goes just before it.
 */
export function firstRanks(
  reasons: readonly FirstReason[],
  links: readonly Link[],
): readonly (number | null)[] {
  const leaders = Map.groupBy(links, ({ after }) => after)
  const ranks = new Map<number, number>()
  const rank = (index: number): void => {
    if (ranks.has(index)) return
    for (const { before } of leaders.get(index) ?? []) rank(before)
    ranks.set(index, ranks.size)
  }
  const all = reasons.map((reason, index) => ({ ...reason, index }))
  const byTick = (key: 'frozen' | 'pinned') =>
    all
      .filter((each) => each[key] !== null)
      .toSorted((a, b) => (a[key] ?? 0) - (b[key] ?? 0) || a.index - b.index)
  for (const { index } of [...all.filter(({ begun }) => begun), ...byTick('frozen'), ...byTick('pinned')])
    rank(index)
  return reasons.map((_, index) => ranks.get(index) ?? null)
}
