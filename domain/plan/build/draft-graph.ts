import type { Link } from '../problem.ts'
import type { DraftWork } from './draft-work.ts'
import { TICKS_PER_HOUR } from './tick-scale.ts'
import { workLinks } from './links.ts'

/** Drafted work with what has to come before what, by number. */
export interface DraftGraph {
  readonly work: readonly DraftWork[]
  /** The number of a car's work by the car's id and the target key. */
  readonly find: (carId: string, key: string) => number | null
  readonly links: readonly Link[]
}

/** Links between work that is done already, or not planned, fall away. */
export function draftGraph(work: readonly DraftWork[]): DraftGraph {
  const numbers = new Map(work.map(({ car, key }, index) => [`${car.id} ${key}`, index]))
  const find = (carId: string, key: string): number | null => numbers.get(`${carId} ${key}`) ?? null
  const links = [...new Set(work.map(({ car }) => car))].flatMap((car) =>
    workLinks(car).flatMap(({ before, after, cureHours }): Link[] => {
      const [from, to] = [find(car.id, before), find(car.id, after)]
      if (from === null || to === null) return []
      return [{ before: from, after: to, lag: Math.ceil(cureHours * TICKS_PER_HOUR) }]
    }),
  )
  return { work, find, links }
}

/** By number: what waits for it directly. */
export function followersOf(size: number, links: readonly Link[]): readonly (readonly number[])[] {
  const followers = Array.from({ length: size }, (): number[] => [])
  for (const { before, after } of links) followers[before]?.push(after)
  return followers
}

/** All that waits for these, directly or through others; they themselves too. */
export function withFollowers(
  start: Iterable<number>,
  followers: readonly (readonly number[])[],
): ReadonlySet<number> {
  const seen = new Set(start)
  for (const each of seen) for (const next of followers[each] ?? []) seen.add(next)
  return seen
}
