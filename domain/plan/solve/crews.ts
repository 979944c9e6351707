import type { Compiled } from './compile.ts'
import { busyUntil, createTimetable, firstFit, isFree, occupy, release, type Timetable } from './timetable.ts'
import { finishAfter, nextWorking, NEVER, type WorkingTime } from './working-time.ts'

/** What work asks of people. Rows are given as one array with bounds, so that nothing is copied in the inner loop. */
export interface CrewDemand {
  readonly people: number
  readonly work: number
  readonly watch: number
  readonly able: Int32Array
  readonly ableFrom: number
  readonly ableTo: number
  readonly named: Int32Array
  readonly namedFrom: number
  readonly namedTo: number
}

/** Everybody's timetable, and the search for the crew that finishes some work first. */
export interface Crews {
  /** What `find` found; `start` is NEVER when nobody can before the horizon. */
  start: number
  finish: number
  /** The first `demand.people` entries. */
  readonly chosen: Int32Array
  readonly find: (demand: CrewDemand, tick: number) => void
  /** Books what was found. */
  readonly take: (count: number) => void
  /** Takes back what these people were booked for from `start` on. */
  readonly giveBack: (people: readonly number[], start: number) => void
  readonly clear: () => void
}

/** Where a free crew was looked for this often in vain, it is looked for no further: an absurd calendar, not a busy one. */
const TRIES = 400

export function createCrews({ problem, times }: Compiled): Crews {
  const tables = problem.people.map(createTimetable)
  const chosen = new Int32Array(Math.max(1, problem.people.length))
  const reach = new Int32Array(chosen.length)
  const one = new Int32Array(1)

  const timeOf = (person: number, watch: number): WorkingTime => {
    one[0] = person
    return times.of(one, 1, watch)
  }
  const fit = (person: number, tick: number, { work, watch }: CrewDemand): number =>
    firstFit(tables[person] as Timetable, timeOf(person, watch), tick, work)

  const consider = (person: number, demand: CrewDemand, tick: number): void => {
    const start = fit(person, tick, demand)
    if (start === NEVER) return
    const finish = finishAfter(timeOf(person, demand.watch), start, demand.work)
    if (finish >= crews.finish) return
    crews.start = start
    crews.finish = finish
    chosen[0] = person
  }

  const findOne = (demand: CrewDemand, tick: number): void => {
    crews.start = NEVER
    crews.finish = NEVER
    if (demand.namedTo > demand.namedFrom)
      return consider(demand.named[demand.namedFrom] as number, demand, tick)
    for (let at = demand.ableFrom; at < demand.ableTo; at += 1)
      consider(demand.able[at] as number, demand, tick)
  }

  /** The people who can be at it together from the earliest tick: named ones first, then those who are free soonest. */
  const findSeveral = (demand: CrewDemand, tick: number): void => {
    let from = tick
    for (let attempt = 0; attempt < TRIES; attempt += 1) {
      const together = gather(demand, from)
      if (together === NEVER) break
      const ready = gather(demand, together)
      if (ready > together) {
        from = ready
        continue
      }
      const time = times.of(chosen, demand.people, demand.watch)
      const start = nextWorking(time, together)
      const finish = start === NEVER ? NEVER : finishAfter(time, start, demand.work)
      if (finish === NEVER) break
      const clash = firstClash(demand.people, start, finish)
      if (clash === NEVER) {
        crews.start = start
        crews.finish = finish
        return
      }
      from = Math.max(from + 1, clash)
    }
    crews.start = NEVER
    crews.finish = NEVER
  }

  /** Chooses the crew that is free soonest after `tick` and says when the last of them is. */
  const gather = (demand: CrewDemand, tick: number): number => {
    let count = 0
    for (let at = demand.namedFrom; at < demand.namedTo; at += 1)
      count = insert(demand.named[at] as number, demand, tick, count, 0)
    const named = count
    for (let at = demand.ableFrom; at < demand.ableTo; at += 1) {
      const person = demand.able[at] as number
      if (!isNamed(demand, person)) count = insert(person, demand, tick, count, named)
    }
    if (count < demand.people) return NEVER
    let last = tick
    for (let index = 0; index < demand.people; index += 1) last = Math.max(last, reach[index] as number)
    return last
  }

  /** Keeps the soonest `people` in order of when they can; the first `fixed` keep their places. */
  const insert = (person: number, demand: CrewDemand, tick: number, count: number, fixed: number): number => {
    const start = fit(person, tick, demand)
    if (start === NEVER) return count
    let at = Math.min(count, demand.people)
    if (at === demand.people && (fixed === at || (reach[at - 1] as number) <= start)) return count
    if (at === demand.people) at -= 1
    for (; at > fixed && (reach[at - 1] as number) > start; at -= 1) {
      reach[at] = reach[at - 1] as number
      chosen[at] = chosen[at - 1] as number
    }
    reach[at] = start
    chosen[at] = person
    return Math.min(demand.people, count + 1)
  }

  /** When the first of the chosen who is busy within [start, finish) is free again; NEVER when all are free. */
  const firstClash = (count: number, start: number, finish: number): number => {
    for (let index = 0; index < count; index += 1) {
      const table = tables[chosen[index] as number] as Timetable
      if (!isFree(table, start, finish)) return busyUntil(table, start)
    }
    return NEVER
  }

  const crews: Crews = {
    start: NEVER,
    finish: NEVER,
    chosen,
    find: (demand, tick) => (demand.people === 1 ? findOne(demand, tick) : findSeveral(demand, tick)),
    take: (count) => {
      for (let index = 0; index < count; index += 1)
        occupy(tables[chosen[index] as number] as Timetable, crews.start, crews.finish)
    },
    giveBack: (people, start) => {
      for (const person of people) release(tables[person] as Timetable, start)
    },
    clear: () => {
      for (const table of tables) table.count = 0
    },
  }
  return crews
}

const isNamed = ({ named, namedFrom, namedTo }: CrewDemand, person: number): boolean => {
  for (let at = namedFrom; at < namedTo; at += 1) if (named[at] === person) return true
  return false
}
