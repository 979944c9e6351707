import { normalCdf } from '../statistics/normal.ts'

/** A distribution as its values at these scores of the standard normal, with straight lines between; level beyond. */
export type ScoreTable = readonly number[]

const LAST = 3
const STEP = 0.25
export const TABLE_SCORES: readonly number[] = Array.from(
  { length: (2 * LAST) / STEP + 1 },
  (_, at) => at * STEP - LAST,
)
export const TABLE_LIKELIHOODS: readonly number[] = TABLE_SCORES.map(normalCdf)

export function valueAtScore(table: ScoreTable, score: number): number {
  const place = Math.min(table.length - 1, Math.max(0, (score + LAST) / STEP))
  const lower = Math.min(table.length - 2, Math.floor(place))
  const value = table[lower] as number
  return value + (place - lower) * ((table[lower + 1] as number) - value)
}

/** Each line between two scores counts by how likely it is; the ends stand for what lies beyond, three in a thousand. */
export function meanOfTable(table: ScoreTable): number {
  const beyond = TABLE_LIKELIHOODS[0] as number
  let sum = beyond * ((table[0] as number) + (table.at(-1) as number))
  for (let at = 1; at < table.length; at += 1) {
    const likely = (TABLE_LIKELIHOODS[at] as number) - (TABLE_LIKELIHOODS[at - 1] as number)
    sum += (likely * ((table[at - 1] as number) + (table[at] as number))) / 2
  }
  return sum
}
