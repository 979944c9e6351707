import type { Compiled } from './compile.ts'
import { inLinkOrder } from './link-order.ts'

/**
 * Rules to begin a search from, each a number by activity: what has the least goes first, as far as links let it. All rest
 * on how late an activity may start for its car to be on time.
 */
export function workshopPriorities(compiled: Compiled): readonly Float64Array[] {
  const { size, car, problem } = compiled
  const { ahead, behind } = pathLengths(compiled)
  const by = (rule: (activity: number) => number): Float64Array =>
    Float64Array.from({ length: size }, (_, a) => rule(a))
  const dueOf = (activity: number): number => problem.cars[car[activity] as number]?.due ?? compiled.horizon
  const weightOf = (activity: number): number => problem.cars[car[activity] as number]?.weight ?? 1
  const latestStart = (activity: number): number => dueOf(activity) - (ahead[activity] as number)
  return [
    by(latestStart),
    by((activity) => dueOf(activity) + 1e-6 * (behind[activity] as number)),
    by((activity) => latestStart(activity) / weightOf(activity)),
    by((activity) => dueOf(activity) / weightOf(activity) + 1e-6 * (behind[activity] as number)),
    by((activity) => behind[activity] as number),
    by((activity) => problem.activities[activity]?.inForce?.start ?? latestStart(activity)),
  ]
}

interface PathLengths {
  /** By activity: ticks of the clock from its start to the end of all that follows it. */
  readonly ahead: Float64Array
  /** By activity: ticks of the clock before it can start. */
  readonly behind: Float64Array
}

/** Longest ways through the links, with working time stretched to clock time by the share of it that is worked. */
function pathLengths(compiled: Compiled): PathLengths {
  const { size, work, earliest, tail, predecessors, lags } = compiled
  const stretch = clockPerWork(compiled)
  const order = inLinkOrder(compiled)
  const length = (activity: number): number =>
    (work[activity] as number) * ((compiled.crewSize[activity] as number) > 0 ? stretch : 1)
  const behind = Float64Array.from(earliest)
  const ahead = new Float64Array(size)
  const eachLink = (activity: number, visit: (before: number, lag: number) => void): void => {
    const last = predecessors.offsets[activity + 1] as number
    for (let at = predecessors.offsets[activity] as number; at < last; at += 1)
      visit(predecessors.items[at] as number, lags[at] as number)
  }
  for (const activity of order)
    eachLink(activity, (before, lag) => {
      const ready = (behind[before] as number) + length(before) + lag
      behind[activity] = Math.max(behind[activity] as number, ready)
    })
  for (let at = size - 1; at >= 0; at -= 1) {
    const activity = order[at] as number
    ahead[activity] = Math.max(ahead[activity] as number, length(activity) + (tail[activity] as number))
    eachLink(activity, (before, lag) => {
      const rest = length(before) + lag + (ahead[activity] as number)
      ahead[before] = Math.max(ahead[before] as number, rest)
    })
  }
  return { ahead, behind }
}

const clockPerWork = ({ problem, times, horizon }: Compiled): number => {
  const worked = problem.people.map((_, person) => times.of(person, 0).tickOf.length)
  const most = Math.max(1, ...worked)
  return worked.length === 0 ? 1 : horizon / most
}
