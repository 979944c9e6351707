/** `after` waits for `before`; numbers of items. The lag is in ticks of the clock, 0 when there is none. */
export interface Pair {
  readonly before: number
  readonly after: number
  readonly lag?: number
}

/** All of these before all of those. */
export const eachBefore = (before: readonly number[], after: readonly number[]): readonly Pair[] =>
  before.flatMap((one) => after.map((other) => ({ before: one, after: other })))

/** One after the other. */
export const inARow = (items: readonly number[]): readonly Pair[] =>
  items.slice(1).map((after, index) => ({ before: items[index] as number, after }))
