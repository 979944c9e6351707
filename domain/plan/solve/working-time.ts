import type { Problem } from '../problem.ts'

/**
 * Working time of one person as look-ups: `done[t]` working ticks lie before tick t, `tickOf[k]` is the tick of the k-th of
 * them and `endOf[k]` the end of the span it lies in. A finish is then one subtraction and one look-up, however many
 * nights lie between.
 */
export interface WorkingTime {
  /** Horizon + 1 entries. */
  readonly done: Int32Array
  readonly tickOf: Int32Array
  readonly endOf: Int32Array
}

/** Later than any horizon. */
export const NEVER = 0x3fffffff

/** First working tick at or after `tick`; NEVER when there is none before the horizon. */
export const nextWorking = (time: WorkingTime, tick: number): number => {
  if (tick >= time.done.length) return NEVER
  const k = time.done[tick] as number
  return k < time.tickOf.length ? (time.tickOf[k] as number) : NEVER
}

/** When `work` (1 or more) working ticks have gone by since `start`; NEVER when that is past the horizon. */
export const finishAfter = (time: WorkingTime, start: number, work: number): number => {
  if (start >= time.done.length) return NEVER
  const k = (time.done[start] as number) + work - 1
  return k < time.tickOf.length ? (time.tickOf[k] as number) + 1 : NEVER
}

/** First tick at or after `tick` at which all of the first `count` work; NEVER when there is none before the horizon. */
export const nextTogether = (crew: readonly WorkingTime[], count: number, tick: number): number => {
  let together = tick
  for (let agreed = 0, at = 0; agreed < count; at = (at + 1) % count) {
    const next = nextWorking(crew[at] as WorkingTime, together)
    if (next === NEVER) return NEVER
    agreed = next === together ? agreed + 1 : 1
    together = next
  }
  return together
}

/** Like `finishAfter` for people who work at the same time only; walks from span to span. */
export const finishTogether = (
  crew: readonly WorkingTime[],
  count: number,
  start: number,
  work: number,
): number => {
  let left = work
  let tick = nextTogether(crew, count, start)
  while (tick !== NEVER) {
    let end = NEVER
    for (let at = 0; at < count; at += 1) {
      const { done, endOf } = crew[at] as WorkingTime
      end = Math.min(end, endOf[done[tick] as number] as number)
    }
    if (end - tick >= left) return tick + left
    left -= end - tick
    tick = nextTogether(crew, count, end)
  }
  return NEVER
}

/** Made when first asked for; equal ones are shared. Both less the last `watch` ticks of the last person's day. */
export interface WorkingTimes {
  readonly of: (person: number, watch: number) => WorkingTime
  /** When at least one of them works. */
  readonly ofAny: (people: readonly number[], watch: number) => WorkingTime
}

export function createWorkingTimes(problem: Problem): WorkingTimes {
  const lastWork = dayEnds(problem)
  const made = new Map<string, WorkingTime>()
  const spansOf = problem.calendars.map(({ spans }) => spans.map(({ from, to }) => `${from}-${to}`).join())
  /** By person: the first calendar that is equal to theirs; -1 for none. */
  const calendarOf = problem.people.map(({ calendar }) => spansOf.indexOf(spansOf[calendar] ?? ''))
  const byWatch = new Map<number, (WorkingTime | undefined)[]>()

  const make = (calendars: readonly number[], watch: number): WorkingTime => {
    const ticks = new Uint8Array(problem.horizon)
    for (const calendar of calendars)
      for (const { from, to } of problem.calendars[calendar]?.spans ?? [])
        ticks.fill(1, Math.max(0, from), Math.max(0, to))
    if (watch > 0) for (const end of lastWork) ticks.fill(0, Math.max(0, end - watch), end)
    return tabulate(ticks)
  }
  const shared = (calendars: readonly number[], watch: number): WorkingTime => {
    const different = [...new Set(calendars)].toSorted((a, b) => a - b)
    const key = `${watch}:${different.join()}`
    const known = made.get(key)
    if (known !== undefined) return known
    const time = make(different, watch)
    made.set(key, time)
    return time
  }
  return {
    of: (person, watch) => {
      let own = byWatch.get(watch)
      if (own === undefined) byWatch.set(watch, (own = []))
      return (own[person] ??= shared([calendarOf[person] ?? -1], watch))
    },
    ofAny: (people, watch) =>
      shared(
        people.map((person) => calendarOf[person] ?? -1),
        watch,
      ),
  }
}

const tabulate = (ticks: Uint8Array): WorkingTime => {
  const horizon = ticks.length
  const done = new Int32Array(horizon + 1)
  for (let tick = 0; tick < horizon; tick += 1)
    done[tick + 1] = (done[tick] as number) + (ticks[tick] as number)
  const tickOf = new Int32Array(done[horizon] as number)
  const endOf = new Int32Array(tickOf.length)
  for (let tick = horizon - 1, k = tickOf.length - 1; tick >= 0; tick -= 1) {
    if (ticks[tick] === 0) continue
    tickOf[k] = tick
    endOf[k] = ticks[tick + 1] === 1 ? (endOf[k + 1] as number) : tick + 1
    k -= 1
  }
  return { done, tickOf, endOf }
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
