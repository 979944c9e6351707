import type { Compiled } from './compile.ts'
import { busyUntil, createTimetable, firstFit, isFree, occupy, release, type Timetable } from './timetable.ts'
import { finishAfter, finishTogether, NEVER, nextTogether, type WorkingTime } from './working-time.ts'

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
  /** Takes back what these people were booked for. */
  readonly giveBack: (people: readonly number[], start: number, finish: number) => void
  readonly clear: () => void
}

const SHORTLIST = 16

/** Where a free crew was looked for this often in vain, it is looked for no further: an absurd calendar, not a busy one. */
const TRIES = 400

export function createCrews({ problem, times }: Compiled): Crews {
  const tables = problem.people.map(createTimetable)
  const chosen = new Int32Array(Math.max(1, problem.people.length))
  const reach = new Int32Array(chosen.length)
  const together: WorkingTime[] = []
  const shortlist = new Int32Array(SHORTLIST)
  const lastEnd = new Int32Array(chosen.length)

  const fit = (person: number, tick: number, { work, watch }: CrewDemand, latest: number): number =>
    firstFit(tables[person] as Timetable, times(person, watch), tick, work, latest)

  /** Of many who are able only those are looked at whose last work ends soonest; in a usual workshop that is everybody. */
  const list = ({ able, ableFrom, ableTo }: CrewDemand): number => {
    let count = 0
    let latest = -1
    for (let at = ableFrom; at < ableTo; at += 1) {
      const person = able[at] as number
      if (count < SHORTLIST) {
        shortlist[count++] = person
        continue
      }
      if (latest < 0) latest = latestOf()
      if ((lastEnd[person] as number) >= (lastEnd[shortlist[latest] as number] as number)) continue
      shortlist[latest] = person
      latest = -1
    }
    return count
  }
  const latestOf = (): number => {
    let latest = 0
    for (let at = 1; at < SHORTLIST; at += 1)
      if ((lastEnd[shortlist[at] as number] as number) > (lastEnd[shortlist[latest] as number] as number))
        latest = at
    return latest
  }

  const consider = (person: number, demand: CrewDemand, tick: number): void => {
    const start = fit(person, tick, demand, crews.finish - demand.work)
    if (start === NEVER) return
    const finish = finishAfter(times(person, demand.watch), start, demand.work)
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
    const count = list(demand)
    for (let at = 0; at < count; at += 1) consider(shortlist[at] as number, demand, tick)
  }

  /** The people who can be at it together from the earliest tick: named ones first, then those who are free soonest. */
  const findSeveral = (demand: CrewDemand, tick: number): void => {
    let from = tick
    for (let attempt = 0; attempt < TRIES; attempt += 1) {
      const gathered = gather(demand, from)
      if (gathered === NEVER) break
      const ready = isSoonest(demand.people, gathered) ? gathered : gather(demand, gathered)
      if (ready > gathered) {
        from = ready
        continue
      }
      for (let at = 0; at < demand.people; at += 1) together[at] = times(chosen[at] as number, demand.watch)
      const start = nextTogether(together, demand.people, gathered)
      const finish = start === NEVER ? NEVER : finishTogether(together, demand.people, start, demand.work)
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

  /** True when all of the crew can begin at the same tick. */
  const isSoonest = (count: number, tick: number): boolean => {
    for (let index = 0; index < count; index += 1) if (reach[index] !== tick) return false
    return true
  }

  /** Chooses the crew that is free soonest after `tick` and says when the last of them is. */
  const gather = (demand: CrewDemand, tick: number): number => {
    let count = 0
    for (let at = demand.namedFrom; at < demand.namedTo; at += 1)
      count = insert(demand.named[at] as number, demand, tick, count, 0)
    const named = count
    const candidates = list(demand)
    for (let at = 0; at < candidates; at += 1) {
      const person = shortlist[at] as number
      if (!isNamed(demand, person)) count = insert(person, demand, tick, count, named)
    }
    if (count < demand.people) return NEVER
    let last = tick
    for (let index = 0; index < demand.people; index += 1) last = Math.max(last, reach[index] as number)
    return last
  }

  /** Keeps the soonest `people` in order of when they can; the first `fixed` keep their places. */
  const insert = (person: number, demand: CrewDemand, tick: number, count: number, fixed: number): number => {
    const start = fit(person, tick, demand, NEVER - 1)
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
      for (let index = 0; index < count; index += 1) {
        const person = chosen[index] as number
        occupy(tables[person] as Timetable, times(person, 0), crews.start, crews.finish)
        lastEnd[person] = Math.max(lastEnd[person] as number, crews.finish)
      }
    },
    giveBack: (people, start, finish) => {
      for (const person of people) release(tables[person] as Timetable, start, finish)
    },
    clear: () => {
      lastEnd.fill(0)
      for (const table of tables) table.count = 0
    },
  }
  return crews
}

const isNamed = ({ named, namedFrom, namedTo }: CrewDemand, person: number): boolean => {
  for (let at = namedFrom; at < namedTo; at += 1) if (named[at] === person) return true
  return false
}
