import type { Compiled } from './compile.ts'
import { type CrewDemand, isNamed, isTakenBefore } from './crew-demand.ts'
import { createFreeMap } from './free-map.ts'
import { setBit, WORD } from './person-bits.ts'
import { busyUntil, createTimetable, firstFit, isFree, occupy, release, type Timetable } from './timetable.ts'
import {
  finishAfter,
  finishTogether,
  NEVER,
  nextTogether,
  nextWorking,
  type WorkingTime,
} from './working-time.ts'

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

/** All crews are compared while there are not more; beyond that only those of the people who are free soonest. */
const MOST_CREWS = 36

/** Where a free crew was looked for this often in vain, it is looked for no further: an absurd calendar, not a busy one. */
const TRIES = 400

export function createCrews(compiled: Compiled): Crews {
  const { problem, times, bits } = compiled
  const everybody = times.ofAny([...problem.people.keys()], 0)
  const freeMap = createFreeMap(compiled, everybody)
  const tables = problem.people.map(createTimetable)
  const chosen = new Int32Array(Math.max(1, problem.people.length))
  const crew = new Int32Array(chosen.length)
  /** Who may join a crew, and when each of them has room for the work. */
  const shortlist = new Int32Array(chosen.length)
  const reach = new Int32Array(chosen.length)
  const together: WorkingTime[] = []
  const barred = new Int32Array(bits.words)
  let barredCount = 0

  const fit = (person: number, tick: number, { work, hours }: CrewDemand, latest: number): number =>
    firstFit(tables[person] as Timetable, hours[person] as WorkingTime, tick, work, latest)

  const consider = (person: number, demand: CrewDemand, tick: number): void => {
    const start = fit(person, tick, demand, crews.finish - demand.work)
    if (start === NEVER) return
    const finish = finishAfter(demand.hours[person] as WorkingTime, start, demand.work)
    if (finish > crews.finish) return
    if (finish === crews.finish && !isTakenBefore(demand, person, chosen[0] as number)) return
    crews.start = start
    crews.finish = finish
    chosen[0] = person
  }

  const findOne = (demand: CrewDemand, tick: number): void => {
    const { named } = demand
    if (named.length > 0) return consider(named[0] as number, demand, tick)
    freeMap.visit(demand, tick, barred, (person) => {
      consider(person, demand, tick)
      return crews.finish - demand.work
    })
  }

  /** Every crew that holds those named, while there are few, or when those who are free soonest never meet. */
  const findSeveral = (demand: CrewDemand, tick: number): void => {
    const named = demand.named.length
    crew.set(demand.named)
    const missing = demand.people - named
    if (combinations(demand.able.length - named - barredCount, missing) > MOST_CREWS) {
      choose(demand, tick, named, 0, listSoonest(demand, tick, missing + 1))
      if (crews.start !== NEVER) return
    }
    choose(demand, tick, named, 0, listAll(demand, tick))
  }

  const listAll = (demand: CrewDemand, tick: number): number => {
    let count = 0
    for (const person of demand.able) {
      if (isNamed(demand, person) || isBarred(person)) continue
      reach[count] = fit(person, tick, demand, NEVER - 1)
      shortlist[count++] = person
    }
    return count
  }

  /** Those who have room for the work soonest: `most` of them, or all if they are fewer. */
  const listSoonest = (demand: CrewDemand, tick: number, most: number): number => {
    let count = 0
    const latest = (): number => (count < most ? NEVER : (reach[most - 1] as number)) - 1
    freeMap.visit(demand, tick, barred, (person) => {
      const start = isNamed(demand, person) ? NEVER : fit(person, tick, demand, latest())
      if (start === NEVER) return latest()
      let to = count < most ? count++ : most - 1
      for (; to > 0 && (reach[to - 1] as number) > start; to -= 1) {
        reach[to] = reach[to - 1] as number
        shortlist[to] = shortlist[to - 1] as number
      }
      reach[to] = start
      shortlist[to] = person
      return latest()
    })
    return count
  }

  /** Tries all crews whose first `filled` members stand, with the rest from the shortlist from `at` on. */
  const choose = (demand: CrewDemand, tick: number, filled: number, at: number, candidates: number): void => {
    if (filled === demand.people) return meet(demand, tick)
    for (let index = at; index <= candidates - (demand.people - filled); index += 1) {
      if ((reach[index] as number) > crews.finish - demand.work) continue
      crew[filled] = shortlist[index] as number
      choose(demand, tick, filled + 1, index + 1, candidates)
    }
  }

  /** Takes the crew that stands if it finishes sooner than what was found before. */
  const meet = (demand: CrewDemand, tick: number): void => {
    const { people, work, hours } = demand
    for (let at = 0; at < people; at += 1) together[at] = hours[crew[at] as number] as WorkingTime
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

  /** When the first of the crew that stands who is busy within [start, finish) is free again; NEVER when all are free. */
  const firstClash = (count: number, start: number, finish: number): number => {
    for (let at = 0; at < count; at += 1) {
      const table = tables[crew[at] as number] as Timetable
      if (!isFree(table, start, finish)) return busyUntil(table, start)
    }
    return NEVER
  }

  const isBarred = (person: number): boolean => {
    const bit = bits.bitOf[person] as number
    return (((barred[Math.floor(bit / WORD)] as number) >>> (bit % WORD)) & 1) === 1
  }

  /** Nobody can be done sooner than a crew that begins when anybody works and goes on without a pause. */
  const search = (demand: CrewDemand, tick: number): void => {
    const { anybody, work, people } = demand
    crews.start = NEVER
    crews.finish = NEVER
    const start = nextWorking(anybody, tick)
    const finish = finishAfter(anybody, start, work)
    if (finish === NEVER) return
    if (freeMap.pick(demand, start, finish, barred, chosen)) {
      crews.start = start
      crews.finish = finish
    } else if (people === 1) findOne(demand, tick)
    else findSeveral(demand, tick)
  }

  /** Looks again without the last of those found who was not named; what was found stands when nobody else can. */
  const findNext = (demand: CrewDemand, tick: number): void => {
    const { start, finish } = crews
    const found = chosen.slice(0, demand.people)
    const last = found.findLast((person) => !isNamed(demand, person))
    if (last === undefined) return
    setBit(barred, bits.bitOf[last] as number)
    barredCount += 1
    search(demand, tick)
    if (crews.start !== NEVER) return
    crews.start = start
    crews.finish = finish
    chosen.set(found)
  }

  const book = (person: number, start: number, finish: number): void => {
    occupy(tables[person] as Timetable, everybody, start, finish)
    freeMap.occupy(person, start, finish)
  }

  const crews: Crews = {
    start: NEVER,
    finish: NEVER,
    chosen,
    find: (demand, tick, rank) => {
      barred.fill(0)
      barredCount = 0
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
      for (const person of people) {
        release(tables[person] as Timetable, start, finish)
        freeMap.release(person, start, finish)
      }
    },
    clear: () => {
      freeMap.clear()
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
