import type { Crew, Problem } from '../problem.ts'
import { createWorkingTimes, type WorkingTime } from '../solve/working-time.ts'

/**
 * Working time without an end, because sampled work runs on past the horizon: up to it as the calendars say, and from
 * there on its last week over and over. `done[t]` working ticks lie before tick t, and `tickOf[k]` is the tick of the k-th.
 */
export interface RepeatedTime extends Pick<WorkingTime, 'done' | 'tickOf'> {
  /** Where the repeated week begins, by tick and by working tick. It ends at the horizon. */
  readonly weekFrom: number
  readonly weekDone: number
}

/**
 * When `people` of those who are able are at work, all who are named among them, less the fire watch before each day's
 * end; null when they never are.
 */
export type CrewTimes = (crew: Crew, watch: number) => RepeatedTime | null

export function createCrewTimes(problem: Problem): CrewTimes {
  const times = createWorkingTimes(problem)
  const week = weekLength(problem)
  const known = new Map<string, RepeatedTime | null>()
  return ({ people, able, named }, watch) => {
    const key = `${people} ${able.join()} ${named.join()} ${watch}`
    const found = known.get(key)
    if (found !== undefined) return found
    const [some, all] = [able, named].map((crew) => crew.map((person) => times.of(person, watch)))
    const made = repeat(whenAtLeast(people, some ?? [], all ?? [], problem.horizon), problem.horizon, week)
    known.set(key, made)
    return made
  }
}

/** When `work` (1 or more) working ticks have gone by from `tick` on. */
export function finishAfter(time: RepeatedTime, tick: number, work: number): number {
  const { done, tickOf, weekFrom, weekDone } = time
  const horizon = done.length - 1
  const week = horizon - weekFrom
  const weekWork = tickOf.length - weekDone
  const weeksGone = tick <= horizon ? 0 : Math.floor((tick - weekFrom) / week)
  const k = (done[tick - weeksGone * week] as number) + weeksGone * weekWork + work - 1
  if (k < tickOf.length) return (tickOf[k] as number) + 1
  const weeks = Math.floor((k - weekDone) / weekWork)
  return (tickOf[k - weeks * weekWork] as number) + weeks * week + 1
}

/** Ticks at which so many of some people are at work, and all of the others. */
function whenAtLeast(
  count: number,
  some: readonly WorkingTime[],
  all: readonly WorkingTime[],
  horizon: number,
): Pick<WorkingTime, 'done' | 'tickOf'> {
  if (some.length === 1) return some[0] as WorkingTime
  const atWork = new Uint8Array(horizon)
  for (const { tickOf } of some) addOne(atWork, tickOf)
  const named = new Uint8Array(horizon)
  for (const { tickOf } of all) addOne(named, tickOf)
  const done = new Int32Array(horizon + 1)
  const tickOf = new Int32Array(horizon)
  let k = 0
  for (let tick = 0; tick < horizon; tick += 1) {
    if ((atWork[tick] as number) >= count && named[tick] === all.length) tickOf[k++] = tick
    done[tick + 1] = k
  }
  return { done, tickOf: tickOf.slice(0, k) }
}

function addOne(counts: Uint8Array, ticks: Int32Array): void {
  for (let k = 0; k < ticks.length; k += 1) {
    const tick = ticks[k] as number
    counts[tick] = (counts[tick] as number) + 1
  }
}

/** Weeks off at the end are not what goes on for ever: the last week with work is repeated together with them. */
function repeat(
  { done, tickOf }: Pick<WorkingTime, 'done' | 'tickOf'>,
  horizon: number,
  week: number,
): RepeatedTime | null {
  const last = tickOf.at(-1)
  if (last === undefined) return null
  const weekFrom = Math.max(0, horizon - Math.ceil((horizon - last) / week) * week)
  return { done, tickOf, weekFrom, weekDone: done[weekFrom] as number }
}

/** Ticks; the whole time where days mean nothing. */
function weekLength({ midnights, horizon }: Problem): number {
  const first = midnights[0]
  const last = midnights.at(-1)
  if (first === undefined || last === undefined || first === last) return horizon
  // The mean, because a clock change makes one day longer or shorter.
  return 7 * Math.round((last - first) / (midnights.length - 1))
}
