import { rounded } from '../text/words.ts'

/** Money in minor units of the currency (cents), as whole numbers, so that every sum of them is exact. */
export interface MoneySum {
  /** Of the hours for which a rate is set. */
  readonly labour: number
  /** Parts, materials and outside work. */
  readonly goods: number
  /** Person-hours on days for which no rate is set: their money is missing from `labour`. */
  readonly unpricedHours: number
}

export const noMoney: MoneySum = { labour: 0, goods: 0, unpricedHours: 0 }

export const goodsMoney = (goods: number): MoneySum => ({ ...noMoney, goods })

/**
 * Hours times a rate, rounded to whole minor units once, halves away from zero. Each estimate line, each part of a
 * variation and each gate's or task's part of a time entry is rounded by itself; sums are never rounded again.
 *
 * @param hours person-hours; below 0 for less work
 * @param perHour minor units; null when no rate is set
 */
export const labourMoney = (hours: number, perHour: number | null): MoneySum =>
  perHour === null
    ? { ...noMoney, unpricedHours: hours }
    : { ...noMoney, labour: rounded(hours * perHour, 0) }

export function addMoney(sums: readonly MoneySum[]): MoneySum {
  let [labour, goods, unpricedHours] = [0, 0, 0]
  for (const sum of sums) {
    labour += sum.labour
    goods += sum.goods
    unpricedHours += sum.unpricedHours
  }
  return { labour, goods, unpricedHours }
}

/**
 * A sum in parts of the given proportions; whole minor units, and the parts add up to the sum.
 *
 * @param shares at least one above 0, none below
 */
export function splitMoney(sum: MoneySum, shares: readonly number[]): readonly MoneySum[] {
  const all = shares.reduce((total, share) => total + share, 0)
  let done = { share: 0, labour: 0, goods: 0 }
  return shares.map((share) => {
    const upTo = (done.share + share) / all
    const next = {
      share: done.share + share,
      labour: rounded(sum.labour * upTo, 0),
      goods: rounded(sum.goods * upTo, 0),
    }
    const part = {
      labour: next.labour - done.labour,
      goods: next.goods - done.goods,
      unpricedHours: (sum.unpricedHours * share) / all,
    }
    done = next
    return part
  })
}

/** Null when there are hours and none of them has a rate: their money is not known at all. */
export const labourOf = ({ labour, unpricedHours }: MoneySum): number | null =>
  labour === 0 && unpricedHours !== 0 ? null : labour

/** Labour and goods; null when there is nothing but hours without a rate. */
export function totalOf(sum: MoneySum): number | null {
  const labour = labourOf(sum)
  return labour === null && sum.goods === 0 ? null : (labour ?? 0) + sum.goods
}
