import type { Calendar, Problem } from '../problem.ts'

/**
 * Working time of a crew as two look-ups: `done[t]` working ticks lie before tick t, and `tickOf[k]` is the tick of the
 * k-th of them. A finish is then one subtraction and one look-up, however many nights lie between.
 */
export interface WorkingTime {
  /** Horizon + 1 entries. */
  readonly done: Int32Array
  readonly tickOf: Int32Array
}

/** Later than any horizon. */
export const NEVER = 0x3fffffff

/** First working tick at or after `tick`; NEVER when there is none before the horizon. */
export const nextWorking = (time: WorkingTime, tick: number): number => {
  const k = time.done[tick] ?? NEVER
  return k < time.tickOf.length ? (time.tickOf[k] as number) : NEVER
}

/** When `work` (1 or more) working ticks have gone by since `start`; NEVER when that is past the horizon. */
export const finishAfter = (time: WorkingTime, start: number, work: number): number => {
  const k = (time.done[start] as number) + work - 1
  return k < time.tickOf.length ? (time.tickOf[k] as number) + 1 : NEVER
}

/** Working times by crew, made when first asked for: people with the same calendar share one. */
export interface WorkingTimes {
  /** Of a crew whose calendars are all open at once, less the last `watch` ticks of the last person's day. */
  readonly of: (people: ArrayLike<number>, count: number, watch: number) => WorkingTime
}

export function createWorkingTimes(problem: Problem): WorkingTimes {
  const { horizon } = problem
  const open = problem.calendars.map((calendar) => openTicks(calendar, horizon))
  const lastWork = dayEnds(problem)
  const known = new Map<string, WorkingTime>()
  const single = new Map<number, WorkingTime>()
  const calendarOf = problem.people.map((person) => person.calendar)

  const make = (calendars: readonly number[], watch: number): WorkingTime => {
    const ticks = Uint8Array.from({ length: horizon }, () => 1)
    for (const calendar of calendars) intersect(ticks, open[calendar] as Uint8Array)
    if (watch > 0) for (const end of lastWork) ticks.fill(0, Math.max(0, end - watch), end)
    return tabulate(ticks)
  }
  const joint = (people: ArrayLike<number>, count: number, watch: number): WorkingTime => {
    const calendars = distinct(people, count, calendarOf)
    const key = `${calendars.join()}:${watch}`
    const found = known.get(key)
    if (found !== undefined) return found
    const made = make(calendars, watch)
    known.set(key, made)
    return made
  }
  const of = (people: ArrayLike<number>, count: number, watch: number): WorkingTime => {
    if (count !== 1) return joint(people, count, watch)
    const key = (people[0] as number) * WATCHES + watch
    const found = single.get(key)
    if (found !== undefined) return found
    const made = joint(people, 1, watch)
    single.set(key, made)
    return made
  }
  return { of }
}

/** A watch is shorter than this many ticks: a day of minutes. */
const WATCHES = 1440

const distinct = (people: ArrayLike<number>, count: number, calendarOf: readonly number[]): number[] =>
  [...new Set(Array.from({ length: count }, (_, i) => calendarOf[people[i] as number] as number))].toSorted(
    (a, b) => a - b,
  )

const openTicks = (calendar: Calendar, horizon: number): Uint8Array => {
  const ticks = new Uint8Array(horizon)
  for (const span of calendar.spans) ticks.fill(1, Math.max(0, span.from), Math.max(0, span.to))
  return ticks
}

const intersect = (ticks: Uint8Array, open: Uint8Array): void => {
  for (let tick = 0; tick < ticks.length; tick += 1)
    ticks[tick] = (ticks[tick] as number) & (open[tick] as number)
}

const tabulate = (ticks: Uint8Array): WorkingTime => {
  const done = new Int32Array(ticks.length + 1)
  for (let tick = 0; tick < ticks.length; tick += 1)
    done[tick + 1] = (done[tick] as number) + (ticks[tick] as number)
  const tickOf = new Int32Array(done[ticks.length] as number)
  for (let tick = 0, k = 0; tick < ticks.length; tick += 1) if (ticks[tick] === 1) tickOf[k++] = tick
  return { done, tickOf }
}

/** When the last person goes, by day; a day whose work runs on over midnight has no such moment. */
function dayEnds({ calendars, people, midnights, horizon }: Problem): readonly number[] {
  const anybody = new Uint8Array(horizon)
  for (const calendar of new Set(people.map((person) => person.calendar)))
    for (const span of calendars[calendar]?.spans ?? [])
      anybody.fill(1, Math.max(0, span.from), Math.max(0, span.to))
  return midnights.slice(1).flatMap((midnight, day) => {
    const first = Math.max(0, midnights[day] as number)
    let end = Math.min(midnight, horizon)
    if (end === midnight && anybody[midnight] === 1 && anybody[midnight - 1] === 1) return []
    while (end > first && anybody[end - 1] === 0) end -= 1
    return end > first ? [end] : []
  })
}
