import type { Compiled } from './compile.ts'
import { type CrewDemand, isNamed } from './crew-demand.ts'
import { busyUntil, createTimetable, firstFit, isFree, occupy, release, type Timetable } from './timetable.ts'
import { finishAfter, finishTogether, NEVER, nextTogether, type WorkingTime } from './working-time.ts'

/** Everybody's timetable, and the search for the crew that finishes some work first. */
export interface Crews {
  /** What `find` found; `start` is NEVER when nobody can before the horizon. */
  start: number
  finish: number
  /** The first `demand.people` entries. */
  readonly chosen: Int32Array
  /** Rank 0 finds the crew that finishes first; each rank more looks past one person who was found. */
  readonly find: (demand: CrewDemand, tick: number, rank: number) => void
  /** Books what was found. */
  readonly take: (count: number) => void
  /** Books people again who were given back. */
  readonly book: (people: readonly number[], start: number, finish: number) => void
  /** Takes back what these people were booked for. */
  readonly giveBack: (people: readonly number[], start: number, finish: number) => void
  readonly clear: () => void
}

const SHORTLIST = 16

/** All crews are compared while there are not more; beyond that only the people who are free soonest. */
const MOST_CREWS = 36

/** Where a free crew was looked for this often in vain, it is looked for no further: an absurd calendar, not a busy one. */
const TRIES = 400

export function createCrews({ problem, times }: Compiled): Crews {
  const tables = problem.people.map(createTimetable)
  const chosen = new Int32Array(Math.max(1, problem.people.length))
  const crew = new Int32Array(chosen.length)
  const reach = new Int32Array(chosen.length)
  const excluded: number[] = []
  let excludedCount = 0
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
    if (isExcluded(person)) return
    const start = fit(person, tick, demand, crews.finish - demand.work)
    if (start === NEVER) return
    const finish = finishAfter(times(person, demand.watch), start, demand.work)
    if (finish >= crews.finish) return
    crews.start = start
    crews.finish = finish
    chosen[0] = person
  }

  const findOne = (demand: CrewDemand, tick: number): void => {
    if (demand.namedTo > demand.namedFrom)
      return consider(demand.named[demand.namedFrom] as number, demand, tick)
    const count = list(demand)
    for (let at = 0; at < count; at += 1) consider(shortlist[at] as number, demand, tick)
  }

  /** Every crew that holds those named, while there are few; else one of the people who are free soonest. */
  const findSeveral = (demand: CrewDemand, tick: number): void => {
    let named = 0
    for (let at = demand.namedFrom; at < demand.namedTo; at += 1) crew[named++] = demand.named[at] as number
    let candidates = 0
    for (let at = 0, count = list(demand); at < count; at += 1) {
      const person = shortlist[at] as number
      if (!isNamed(demand, person) && !isExcluded(person)) shortlist[candidates++] = person
    }
    const missing = demand.people - named
    if (candidates < missing) return
    if (combinations(candidates, missing) > MOST_CREWS)
      candidates = keepSoonest(demand, tick, candidates, missing)
    choose(demand, tick, named, 0, candidates)
  }

  /** Tries all crews whose first `filled` members stand, with the rest from the shortlist from `at` on. */
  const choose = (demand: CrewDemand, tick: number, filled: number, at: number, candidates: number): void => {
    if (filled === demand.people) return meet(demand, tick)
    for (let index = at; index <= candidates - (demand.people - filled); index += 1) {
      crew[filled] = shortlist[index] as number
      choose(demand, tick, filled + 1, index + 1, candidates)
    }
  }

  /** Takes the crew that stands if it finishes sooner than what was found before. */
  const meet = (demand: CrewDemand, tick: number): void => {
    const { people, work, watch } = demand
    for (let at = 0; at < people; at += 1) together[at] = times(crew[at] as number, watch)
    let from = tick
    for (let attempt = 0; attempt < TRIES; attempt += 1) {
      const latest = crews.finish - work
      const start = nextTogether(together, people, soonest(demand, from, latest))
      if (start > latest) return
      const finish = finishTogether(together, people, start, work)
      if (finish >= crews.finish) return
      const clash = firstClash(people, start, finish)
      if (clash === NEVER) {
        crews.start = start
        crews.finish = finish
        for (let at = 0; at < people; at += 1) chosen[at] = crew[at] as number
        return
      }
      from = Math.max(start + 1, clash)
    }
  }

  /** When the last of the crew that stands has room for the work; NEVER when that is after `latest`. */
  const soonest = (demand: CrewDemand, tick: number, latest: number): number => {
    let last = tick
    for (let agreed = 0, at = 0; agreed < demand.people; at = (at + 1) % demand.people) {
      const start = fit(crew[at] as number, last, demand, latest)
      if (start === NEVER) return NEVER
      agreed = start === last ? agreed + 1 : 1
      last = start
    }
    return last
  }

  /** Leaves those of the shortlist who have room for the work soonest: the missing and one more. */
  const keepSoonest = (demand: CrewDemand, tick: number, candidates: number, missing: number): number => {
    const keep = Math.min(candidates, missing + 1)
    for (let at = 0; at < candidates; at += 1) {
      const person = shortlist[at] as number
      const start = fit(person, tick, demand, NEVER - 1)
      let to = Math.min(at, keep)
      if (to === keep && (reach[keep - 1] as number) <= start) continue
      if (to === keep) to -= 1
      for (; to > 0 && (reach[to - 1] as number) > start; to -= 1) {
        reach[to] = reach[to - 1] as number
        shortlist[to] = shortlist[to - 1] as number
      }
      reach[to] = start
      shortlist[to] = person
    }
    return keep
  }

  /** When the first of the crew that stands who is busy within [start, finish) is free again; NEVER when all are free. */
  const firstClash = (count: number, start: number, finish: number): number => {
    for (let at = 0; at < count; at += 1) {
      const table = tables[crew[at] as number] as Timetable
      if (!isFree(table, start, finish)) return busyUntil(table, start)
    }
    return NEVER
  }

  const isExcluded = (person: number): boolean => {
    for (let at = 0; at < excludedCount; at += 1) if (excluded[at] === person) return true
    return false
  }

  const search = (demand: CrewDemand, tick: number): void => {
    crews.start = NEVER
    crews.finish = NEVER
    if (demand.people === 1) findOne(demand, tick)
    else findSeveral(demand, tick)
  }

  /** Looks again without the last of those found who was not named; what was found stands when nobody else can. */
  const findNext = (demand: CrewDemand, tick: number): void => {
    const { start, finish } = crews
    const found = chosen.slice(0, demand.people)
    const last = found.findLast((person) => !isNamed(demand, person))
    if (last === undefined) return
    excluded[excludedCount++] = last
    search(demand, tick)
    if (crews.start !== NEVER) return
    crews.start = start
    crews.finish = finish
    chosen.set(found)
  }

  const book = (person: number, start: number, finish: number): void => {
    occupy(tables[person] as Timetable, times(person, 0), start, finish)
    lastEnd[person] = Math.max(lastEnd[person] as number, finish)
  }

  const crews: Crews = {
    start: NEVER,
    finish: NEVER,
    chosen,
    find: (demand, tick, rank) => {
      excludedCount = 0
      search(demand, tick)
      for (let next = 0; next < rank && crews.start !== NEVER; next += 1) findNext(demand, tick)
    },
    take: (count) => {
      for (let index = 0; index < count; index += 1) book(chosen[index] as number, crews.start, crews.finish)
    },
    book: (people, start, finish) => {
      for (const person of people) book(person, start, finish)
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

/** How many ways there are to choose `chosen` of `all`. */
const combinations = (all: number, chosen: number): number => {
  let ways = 1
  for (let at = 0; at < chosen; at += 1) ways = (ways * (all - at)) / (at + 1)
  return ways
}
