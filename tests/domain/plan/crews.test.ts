import { describe, expect, it } from 'vitest'
import type { Problem } from '../../../domain/plan/problem.ts'
import { compile } from '../../../domain/plan/solve/compile.ts'
import { type CrewDemand, crewDemands } from '../../../domain/plan/solve/crew-demand.ts'
import { createCrews } from '../../../domain/plan/solve/crews.ts'
import { NEVER } from '../../../domain/plan/solve/working-time.ts'
import { activity, crewOf, DAY, planProblem, shifts } from '../../support/plan-problem.ts'
import { createRandom, type Random } from '../../support/random.ts'

const HORIZON = 10 * DAY
const JOBS = 60

/** Shifts of three kinds with days off; hot work ends early; some work has its person already. */
const workshop = (random: Random, count: number, people: number): Problem =>
  planProblem({
    calendars: Array.from({ length: count }, () => {
      const { spans } = random.pick([shifts(20, 60), shifts(30, 70), shifts(20, 40)])
      return { spans: spans.filter(() => random.next() < 0.9) }
    }),
    people: Array.from({ length: count }, (_, calendar) => ({ calendar })),
    activities: Array.from({ length: JOBS }, () => {
      const able = Array.from({ length: count }, (_, person) => person).filter(() => random.next() < 0.6)
      const named = random.next() < 0.1 && able.length > 0 ? [random.pick(able)] : []
      const watch = random.pick([0, 0, 5])
      return activity({ work: random.between(1, 60), watch, crew: crewOf(able, { people, named }) })
    }),
  })

/** Counts tick by tick: who of a workshop is at work, and who is booked. */
const createCount = (problem: Problem) => {
  const lastOfDay = problem.midnights.map((midnight) =>
    Math.max(
      ...problem.calendars.flatMap(({ spans }) =>
        spans.filter(({ from }) => from >= midnight && from < midnight + DAY).map(({ to }) => to),
      ),
    ),
  )
  const booked = problem.people.map(() => new Uint8Array(HORIZON))
  const isAtWork = (person: number, tick: number, watch: number): boolean =>
    problem.calendars[person]!.spans.some(({ from, to }) => from <= tick && tick < to) &&
    (watch === 0 || tick < lastOfDay[Math.floor(tick / DAY)]! - watch)
  return {
    book: (person: number, start: number, finish: number) => booked[person]!.fill(1, start, finish),
    /** The first way in which all of the crew can do it together from `tick` on. */
    soonest: (crew: readonly number[], { work, watch }: CrewDemand, tick: number) => {
      for (let start = tick; start < HORIZON; start += 1) {
        if (!crew.every((person) => isAtWork(person, start, watch))) continue
        let at = start
        for (let left = work; left > 0 && at < HORIZON; at += 1) {
          if (crew.some((person) => booked[person]![at] === 1)) break
          if (crew.every((person) => isAtWork(person, at, watch))) left -= 1
          if (left === 0) return { start, finish: at + 1 }
        }
      }
      return { start: NEVER, finish: NEVER }
    },
  }
}

const pairs = (able: Int32Array): readonly number[][] =>
  Array.from(able).flatMap((one, at) =>
    Array.from(able.subarray(at + 1), (other) => [one, other].toSorted((a, b) => a - b)),
  )

/** Looks for the crew of one job after the other, from any tick on, and hands over what was found beside all that could be. */
function eachFound(
  random: Random,
  problem: Problem,
  crewsOf: (able: Int32Array) => readonly number[][],
  look: (
    found: readonly number[],
    possible: readonly { crew: number[]; start: number; finish: number }[],
  ) => void,
): void {
  const compiled = compile(problem)
  const crews = createCrews(compiled)
  const count = createCount(problem)
  for (const demand of crewDemands(compiled)) {
    if (demand === null) continue
    const tick = random.between(0, HORIZON / 2)
    const possible = crewsOf(demand.able)
      .filter((crew) => demand.named.every((person) => crew.includes(person)))
      .map((crew) => ({ crew, ...count.soonest(crew, demand, tick) }))
    crews.find(demand, tick, 0)
    if (crews.start === NEVER) {
      look([], possible)
      continue
    }
    const found = Array.from(crews.chosen.subarray(0, demand.people))
    look([crews.start, crews.finish, ...found.toSorted((a, b) => a - b)], possible)
    crews.take(demand.people)
    for (const person of found) count.book(person, crews.start, crews.finish)
  }
}

describe('the crew that is found for some work', () => {
  it.each([1, 2, 7, 33, 45])('is whoever can be done first, of %i people', (people) => {
    const random = createRandom(people)
    const one = (able: Int32Array): number[][] => Array.from(able, (person) => [person])
    eachFound(random, workshop(random, people, 1), one, (found, possible) => {
      const soonest = possible.toSorted((a, b) => a.finish - b.finish)[0]
      const none = soonest === undefined || soonest.finish === NEVER
      expect(found).toEqual(none ? [] : [soonest.start, soonest.finish, ...soonest.crew])
    })
  })

  it.each([2, 6, 9])('is the pair that can be done first, of %i people', (people) => {
    const random = createRandom(people)
    eachFound(random, workshop(random, people, 2), pairs, (found, possible) => {
      const soonest = Math.min(NEVER, ...possible.map(({ finish }) => finish))
      expect(found[1] ?? NEVER).toBe(soonest)
    })
  })

  it('is a pair that can, and mostly the first, of 20 people', () => {
    const random = createRandom(1)
    let asSoonAsCanBe = 0
    eachFound(random, workshop(random, 20, 2), pairs, (found, possible) => {
      if (found.length === 0) return expect(possible.every(({ finish }) => finish === NEVER)).toBe(true)
      const [start, finish, ...crew] = found
      expect(possible).toContainEqual({ start, finish, crew })
      if (finish === Math.min(...possible.map((each) => each.finish))) asSoonAsCanBe += 1
    })
    expect(asSoonAsCanBe).toBeGreaterThan(JOBS / 2)
  })

  it('is whoever has the work in the plan in force, of those who are ready at the same time', () => {
    const able = [0, 1, 2, 3]
    const heldBy = (person: number) =>
      activity({ work: 30, crew: crewOf(able), inForce: { start: 20, crew: [person] } })
    const problem = planProblem({
      calendars: [shifts(20, 60)],
      people: able.map(() => ({ calendar: 0 })),
      activities: [heldBy(2), heldBy(3), activity({ work: 30, crew: crewOf(able) })],
    })
    const compiled = compile(problem)
    const crews = createCrews(compiled)
    const found = () =>
      crewDemands(compiled).map((demand) => {
        crews.find(demand!, 20, 0)
        return [crews.start, crews.chosen[0]]
      })
    expect(found()).toEqual([
      [20, 2],
      [20, 3],
      [20, 0],
    ])
    // Nobody has room before the next day, so that each of them is asked.
    crews.book(able, 40, 50)
    expect(found().map(([, person]) => person)).toEqual([2, 3, 0])
  })
})
