import type { FrozenOrder } from './frozen-order.ts'
import { inARow } from './pair.ts'

/** A repair whose hours make a car's finish unsure. */
export interface Driver {
  /** As Activity.repair has it; it may be of another car that has the people or the bay before. */
  readonly repair: number
  /** Of the spread that can be told from chance, 0 to 1. */
  readonly share: number
}

const MOST = 3

/** Samples as deviations from their mean, one after the other, with the root of the sum of their squares. */
export interface Deviations {
  readonly values: Float64Array
  readonly length: number
}

export function deviationsOf(values: Int32Array | Float64Array): Deviations {
  let sum = 0
  for (let index = 0; index < values.length; index += 1) sum += values[index] as number
  const mean = sum / values.length
  const apart = new Float64Array(values.length)
  for (let index = 0; index < values.length; index += 1) apart[index] = (values[index] as number) - mean
  return { values: apart, length: Math.sqrt(product(apart, apart)) }
}

/**
 * The repairs whose sampled work goes with the finish most, largest first: shares of the covariances, which for work done
 * in a row add up to the variance of the finish.
 *
 * @param work by repair
 * @param repairs that come before the finish
 */
export function driversOf(
  finish: Deviations,
  work: ReadonlyMap<number, Deviations>,
  repairs: ReadonlySet<number>,
): readonly Driver[] {
  const least = CHANCE / Math.sqrt(finish.values.length)
  const drivers = [...repairs].flatMap((repair) => {
    const own = work.get(repair)
    if (own === undefined) return []
    const share = product(finish.values, own.values)
    return share > least * finish.length * own.length ? [{ repair, share }] : []
  })
  const total = drivers.reduce((sum, { share }) => sum + share, 0)
  return drivers
    .map(({ repair, share }) => ({ repair, share: share / total }))
    .toSorted((a, b) => b.share - a.share || a.repair - b.repair)
    .slice(0, MOST)
}

/** Correlations below so many standard errors (one over the root of the samples) are taken for chance. */
const CHANCE = 2

const product = (one: Float64Array, other: Float64Array): number => {
  let sum = 0
  for (let index = 0; index < one.length; index += 1) sum += (one[index] as number) * (other[index] as number)
  return sum
}

/** By item: what comes before it in the plan, by order or because the same people do it. */
export type AllBefore = readonly (readonly number[])[]

export function allBefore({ before, items, order }: FrozenOrder): AllBefore {
  const own = new Map<number, number[]>()
  for (const item of order)
    for (const person of items[item]?.placement.crew ?? [])
      own.set(person, [...(own.get(person) ?? []), item])
  const all = before.map((each) => each.map(({ item }) => item))
  for (const { before: one, after } of [...own.values()].flatMap(inARow)) all[after]?.push(one)
  return all
}

/** The repairs of these activities and of all that comes before them. */
export function repairsBefore(
  before: AllBefore,
  repairOf: (item: number) => number | null,
  last: readonly number[],
): ReadonlySet<number> {
  const seen = new Set(last)
  for (const item of seen) for (const each of before[item] ?? []) seen.add(each)
  return new Set([...seen].flatMap((item) => repairOf(item) ?? []))
}
