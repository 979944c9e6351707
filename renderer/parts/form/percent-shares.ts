/** In percent: three thirds written as 33.3 come to 99.9. */
const CLOSE_ENOUGH = 0.15

/**
 * Shares of a whole, adding up to 1, from percentages as they were typed.
 *
 * @returns null when one is missing or negative, or when they do not add up to 100 but for their rounding
 */
export function percentToShares(percents: readonly (number | null)[]): readonly number[] | null {
  const given = percents.filter((percent): percent is number => percent !== null && percent >= 0)
  const sum = percentSum(percents)
  if (given.length < percents.length || Math.abs(sum - 100) > CLOSE_ENOUGH) return null
  return given.map((percent) => percent / sum)
}

/** What has been typed so far, in percent. */
export const percentSum = (percents: readonly (number | null)[]): number =>
  percents.reduce<number>((sum, percent) => sum + (Number.isNaN(percent) ? 0 : (percent ?? 0)), 0)

/** Whole percentages that add up to 100: each is rounded down, and what is missing goes to those cut most. */
export function sharesToPercent(shares: readonly number[]): readonly number[] {
  const floors = shares.map((share) => Math.floor(share * 100 + 1e-9))
  const missing = 100 - floors.reduce((sum, floor) => sum + floor, 0)
  const cutMost = shares
    .map((share, index) => ({ index, cut: share * 100 - (floors[index] ?? 0) }))
    .toSorted((a, b) => b.cut - a.cut)
    .slice(0, missing)
  const raised = new Set(cutMost.map(({ index }) => index))
  return floors.map((floor, index) => floor + (raised.has(index) ? 1 : 0))
}
