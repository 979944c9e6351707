import type { Link } from './problem.ts'

/** When activities can and must happen if nothing but their links stood in the way. Ticks. */
export interface CriticalPath {
  /** The end of the last activity, tails included. */
  readonly end: number
  readonly earliestStart: readonly number[]
  readonly earliestFinish: readonly number[]
  /** Starting later than this moves the end. */
  readonly latestStart: readonly number[]
  readonly latestFinish: readonly number[]
  /** How long it can be put off without moving the end; critical when 0. */
  readonly slack: readonly number[]
}

export interface Step {
  readonly work: number
  readonly earliest: number
  readonly tail: number
}

/**
 * The critical-path method (Kelley & Walker 1959): a forward pass for the earliest times, a backward pass from the end for
 * the latest. The links must hold no circle; activities in one are treated as if the links that close it were not there.
 */
export function criticalPath(activities: readonly Step[], links: readonly Link[]): CriticalPath {
  const order = topologicalOrder(activities.length, links)
  const outgoing = Map.groupBy(links, (link) => link.before)
  const earliestStart = activities.map((each) => Math.max(0, each.earliest))
  const earliestFinish = activities.map(() => 0)
  for (const index of order) {
    const finish = (earliestStart[index] as number) + (activities[index] as Step).work
    earliestFinish[index] = finish
    for (const { after, lag } of outgoing.get(index) ?? [])
      earliestStart[after] = Math.max(earliestStart[after] as number, finish + lag)
  }
  const end = activities.reduce(
    (last, each, index) => Math.max(last, (earliestFinish[index] as number) + each.tail),
    0,
  )
  const latestFinish = activities.map((each) => end - each.tail)
  const latestStart = activities.map(() => 0)
  for (const index of order.toReversed()) {
    for (const { after, lag } of outgoing.get(index) ?? [])
      latestFinish[index] = Math.min(latestFinish[index] as number, (latestStart[after] as number) - lag)
    latestStart[index] = (latestFinish[index] as number) - (activities[index] as Step).work
  }
  const slack = latestStart.map((latest, index) => latest - (earliestStart[index] as number))
  return { end, earliestStart, earliestFinish, latestStart, latestFinish, slack }
}

/** Everything after what it waits for (Kahn 1962). What lies in a circle is left out, and all that waits for it. */
export function topologicalOrder(size: number, links: readonly Link[]): readonly number[] {
  const outgoing = Map.groupBy(links, (link) => link.before)
  const waits = new Int32Array(size)
  for (const { after } of links) waits[after] = (waits[after] as number) + 1
  const order = Array.from({ length: size }, (_, index) => index).filter((index) => waits[index] === 0)
  for (const index of order) {
    for (const { after } of outgoing.get(index) ?? []) {
      waits[after] = (waits[after] as number) - 1
      if (waits[after] === 0) order.push(after)
    }
  }
  return order
}
