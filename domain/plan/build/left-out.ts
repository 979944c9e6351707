import type { Link } from '../problem.ts'
import { followersOf, withFollowers } from './draft-graph.ts'
import type { DraftStands } from './stands.ts'

/**
 * All that cannot be planned because of what cannot be done: what follows it, sides that could be opened and never closed
 * again, and what an open side keeps from being done while it is never closed: other sides, and work in other bays where
 * the shell may not be moved.
 */
export function leftOut(
  impossible: Iterable<number>,
  size: number,
  links: readonly Link[],
  { stands, apart }: Pick<DraftStands, 'stands' | 'apart'>,
  elsewhere: (carId: string) => readonly number[],
): ReadonlySet<number> {
  const followers = followersOf(size, links)
  let out = withFollowers(impossible, followers)
  for (;;) {
    const isNeverClosed = (stand: number): boolean => out.has(stands[stand]?.until ?? -1)
    const opening = (stand: number): number[] => {
      const from = stands[stand]?.from ?? null
      return from === null || out.has(from) ? [] : [from]
    }
    const isStuckOpen = (stand: number): boolean => isNeverClosed(stand) && stands[stand]?.from === null
    const more = [
      ...stands.flatMap((_, stand) => (isNeverClosed(stand) ? opening(stand) : [])),
      ...stands.flatMap(({ carId }, stand) =>
        isStuckOpen(stand) ? elsewhere(carId).filter((index) => !out.has(index)) : [],
      ),
      ...apart.flatMap(([a, b]) => [
        ...(isStuckOpen(a) ? opening(b) : []),
        ...(isStuckOpen(b) ? opening(a) : []),
      ]),
    ]
    if (more.length === 0) return out
    out = withFollowers([...out, ...more], followers)
  }
}
