import type { Crew, Problem } from '../../domain/plan/problem.ts'

/** One way to place an activity, and the column that is 1 when it is taken. */
export interface Choice {
  readonly activity: number
  readonly start: number
  readonly finish: number
  readonly crew: readonly number[]
  readonly column: number
}

/** By activity and tick: columns that are 1 once it has started, and once it has finished. */
export interface Time {
  readonly started: readonly (readonly number[])[]
  readonly finished: readonly (readonly number[])[]
}

/** Whether a crew is at work at a tick, by crew and watch. */
export type Open = (crew: readonly number[], watch: number, tick: number) => boolean

export function openTicks({ calendars, people, midnights, horizon }: Problem): Open {
  const isAtWork = people.map(({ calendar }) => {
    const ticks = Array.from({ length: horizon + 1 }, () => false)
    for (const { from, to } of calendars[calendar]?.spans ?? []) ticks.fill(true, Math.max(0, from), to)
    return ticks
  })
  const isAnybody = (tick: number): boolean => isAtWork.some((ticks) => ticks[tick])
  const ends = midnights.slice(1).flatMap((midnight, day) => {
    let last = midnight - 1
    while (last >= (midnights[day] ?? 0) && !isAnybody(last)) last -= 1
    const isOver = last < (midnights[day] ?? 0) || (last === midnight - 1 && isAnybody(midnight))
    return isOver ? [] : [last + 1]
  })
  const isWatched = (tick: number, watch: number): boolean =>
    ends.some((end) => end - watch <= tick && tick < end)
  return (crew, watch, tick) => crew.every((person) => isAtWork[person]?.[tick]) && !isWatched(tick, watch)
}

/** When work that starts at `start` is finished; null when it may not start there or is not done by the horizon. */
export function finishOf(
  open: Open,
  { work, watch }: { readonly work: number; readonly watch: number },
  crew: readonly number[],
  start: number,
  horizon: number,
): number | null {
  if (work === 0 || crew.length === 0) return start + work <= horizon ? start + work : null
  if (!open(crew, watch, start)) return null
  let left = work
  for (let tick = start; tick < horizon; tick += 1) {
    if (open(crew, watch, tick)) left -= 1
    if (left === 0) return tick + 1
  }
  return null
}

/** All sets of `people` of those able that hold the named. */
export function crewsOf(crew: Crew | null): readonly (readonly number[])[] {
  if (crew === null) return [[]]
  const grow = (from: number, chosen: readonly number[]): readonly (readonly number[])[] =>
    chosen.length === crew.people
      ? [chosen]
      : crew.able.slice(from).flatMap((person, at) => grow(from + at + 1, [...chosen, person]))
  return grow(0, []).filter((each) => crew.named.every((person) => each.includes(person)))
}

export const ticksTo = (last: number): readonly number[] =>
  Array.from({ length: last + 1 }, (_, tick) => tick)
