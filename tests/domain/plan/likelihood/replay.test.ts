import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createCrewTimes, finishAfter } from '../../../../domain/plan/likelihood/crew-time.ts'
import { freezeOrder } from '../../../../domain/plan/likelihood/frozen-order.ts'
import { replay } from '../../../../domain/plan/likelihood/replay.ts'
import type { Problem } from '../../../../domain/plan/problem.ts'
import type { Schedule } from '../../../../domain/plan/schedule.ts'
import {
  activity,
  crewOf,
  DAY,
  move,
  placement,
  planBay,
  planCar,
  planPerson,
  planProblem,
  schedule,
  shifts,
  stay,
} from '../../../support/plan-problem.ts'

/** Finishes of the activities, then of the moves, when the work turns out like this. */
const play = (problem: Problem, plan: Schedule, works: readonly number[]): readonly number[] => {
  const frozen = freezeOrder(problem, plan)
  const finishes = replay(problem, frozen, 1, (index, work) => work.fill(works[index]!))
  return frozen.items.map((_, item) => finishes(item)[0]!)
}

const onCar = (car: number) => activity({ car, bayKind: 0, repair: car })
const inBay = (start: number, bay = 0) => placement(start, { bay })

describe('a plan played through', () => {
  it('gives late work time, and what follows waits for it and its curing', () => {
    const problem = planProblem({
      activities: [activity(), activity()],
      links: [{ before: 0, after: 1, lag: 7 }],
    })
    const plan = schedule({ placed: [placement(0), placement(17)] })
    expect(play(problem, plan, [25, 10])).toEqual([25, 42])
    expect(play(problem, plan, [5, 10])).toEqual([5, 22])
  })

  it('never begins before a part is there', () => {
    const problem = planProblem({ activities: [activity({ earliest: 30 })] })
    expect(play(problem, schedule({ placed: [placement(30)] }), [4])).toEqual([34])
  })

  it('gives the next work to whoever is free, unless somebody is named', () => {
    const work = (named: readonly number[]) => activity({ crew: crewOf([0, 1], { named }) })
    const plan = schedule({
      placed: [placement(0, { crew: [0] }), placement(0, { crew: [1] }), placement(10, { crew: [0] })],
    })
    const people = [planPerson(), planPerson()]
    const free = planProblem({ people, activities: [work([]), work([]), work([])] })
    expect(play(free, plan, [30, 10, 10])).toEqual([30, 10, 20])
    const named = planProblem({ people, activities: [work([0]), work([1]), work([0])] })
    expect(play(named, plan, [30, 10, 10])).toEqual([30, 10, 40])
  })

  it('lets two people begin together when both are free', () => {
    const problem = planProblem({
      people: [planPerson(), planPerson(), planPerson()],
      activities: [
        activity({ crew: crewOf([0], { named: [0] }) }),
        activity({ crew: crewOf([1], { named: [1] }) }),
        activity({ crew: crewOf([0, 1], { people: 2 }) }),
      ],
    })
    const plan = schedule({
      placed: [placement(0, { crew: [0] }), placement(0, { crew: [1] }), placement(10, { crew: [0, 1] })],
    })
    expect(play(problem, plan, [12, 31, 10])).toEqual([12, 31, 41])
  })

  it('pauses over nights, and for hot work before the last hour of the day', () => {
    const problem = planProblem({
      calendars: [shifts()],
      people: [planPerson()],
      activities: [activity({ crew: crewOf([0]), watch: 5 })],
    })
    const plan = schedule({ placed: [placement(20, { crew: [0] })] })
    // At work from 20 to 60 of each day; hot work until 55.
    expect(play(problem, plan, [35])).toEqual([55])
    expect(play(problem, plan, [36])).toEqual([DAY + 21])
  })

  it('lets the next shell in when the one before has left the bay', () => {
    const problem = planProblem({
      bays: [planBay()],
      cars: [planCar(), planCar({ bay: null })],
      activities: [onCar(0), onCar(1)],
      move: { work: 3, people: 0, able: [] },
    })
    const plan = schedule({
      placed: [inBay(0), inBay(13)],
      stays: [stay(0, 0, 0, 10), stay(1, 0, 10, 23)],
      moves: [move(1, null, 0, [10, 13])],
    })
    expect(play(problem, plan, [40, 10])).toEqual([40, 53, 43])
  })

  it('moves a shell when its work in the bay is done, and goes on where it is moved to', () => {
    const problem = planProblem({
      bays: [planBay(), planBay()],
      cars: [planCar()],
      activities: [onCar(0), onCar(0)],
      move: { work: 3, people: 0, able: [] },
    })
    const plan = schedule({
      placed: [inBay(0), inBay(13, 1)],
      stays: [stay(0, 0, 0, 13), stay(0, 1, 10, 23)],
      moves: [move(0, 0, 1, [10, 13])],
    })
    expect(play(problem, plan, [20, 10])).toEqual([20, 33, 23])
  })

  it('keeps a bay for whom it is booked', () => {
    const booked = [{ bay: 0, from: 0, to: 50 }]
    const problem = planProblem({
      bays: [planBay()],
      cars: [planCar({ bay: null, bookings: booked }), planCar({ bay: null })],
      activities: [onCar(1)],
    })
    const plan = schedule({
      placed: [inBay(50)],
      stays: [stay(1, 0, 50, 60)],
      moves: [move(1, null, 0, [50, 50])],
    })
    expect(play(problem, plan, [1])).toEqual([51, 50])
  })

  it('opens one side after the other', () => {
    const problem = planProblem({
      cars: [planCar()],
      activities: [activity({ car: 0 }), activity({ car: 0 })],
      stands: [
        { car: 0, from: 0, until: 0 },
        { car: 0, from: 1, until: 1 },
      ],
      apart: [[0, 1]],
    })
    const plan = schedule({ placed: [placement(10), placement(0)] })
    expect(play(problem, plan, [10, 35])).toEqual([45, 35])
  })

  it('hands the jig on when all work on it is done', () => {
    const problem = planProblem({
      resources: [{ capacity: 1 }],
      activities: [activity(), activity(), activity()],
      spans: [
        { resource: 0, amount: 1, activities: [0, 1], held: false },
        { resource: 0, amount: 1, activities: [2], held: false },
      ],
    })
    const plan = schedule({ placed: [placement(0), placement(10), placement(20)] })
    expect(play(problem, plan, [50, 10, 10])).toEqual([50, 10, 60])
  })

  it('lets two shells change places that would wait for each other', () => {
    const problem = planProblem({
      bays: [planBay(), planBay()],
      cars: [planCar(), planCar({ bay: 1 })],
      activities: [onCar(0), onCar(1)],
    })
    const plan = schedule({
      placed: [inBay(5, 1), inBay(5, 0)],
      stays: [stay(0, 0, 0, 5), stay(1, 1, 0, 5), stay(0, 1, 5, 15), stay(1, 0, 5, 15)],
      moves: [move(0, 0, 1, [5, 5]), move(1, 1, 0, [5, 5])],
    })
    expect(play(problem, plan, [10, 20]).slice(0, 2)).toEqual([10, 20])
  })
})

describe('working time past the horizon', () => {
  it('goes on with the last week that has work in it', () => {
    // Ten days; at work on days 1 to 3 from 20 to 60, so the week that is repeated is days 3 to 9, with day 3 in it.
    const days = [1, 2, 3].map((day) => ({ from: day * DAY + 20, to: day * DAY + 60 }))
    const times = createCrewTimes(planProblem({ calendars: [{ spans: days }], people: [planPerson()] }))
    const time = times(crewOf([0]), 0)!
    expect(finishAfter(time, 0, 120)).toBe(3 * DAY + 60)
    expect(finishAfter(time, 0, 121)).toBe(10 * DAY + 21)
    expect(finishAfter(time, 0, 161)).toBe(17 * DAY + 21)
    expect(finishAfter(time, 12 * DAY, 1)).toBe(17 * DAY + 21)
  })

  it('is the same as long calendars give that repeat the same week', () => {
    const week = [0, 1, 2, 3, 4].map((day) => ({ from: day * DAY + 20, to: day * DAY + 60 }))
    const weeks = (count: number) =>
      Array.from({ length: count }, (_, at) =>
        week.map(({ from, to }) => ({ from: from + at * 7 * DAY, to: to + at * 7 * DAY })),
      ).flat()
    const timeOver = (count: number) =>
      createCrewTimes(
        planProblem({
          horizon: count * 7 * DAY,
          midnights: Array.from({ length: count * 7 + 1 }, (_, day) => day * DAY),
          calendars: [{ spans: weeks(count) }],
          people: [planPerson()],
        }),
      )(crewOf([0]), 0)!
    const [short, long] = [timeOver(2), timeOver(12)]
    fc.assert(
      fc.property(fc.nat(5000), fc.integer({ min: 1, max: 400 }), (tick, work) => {
        expect(finishAfter(short, tick, work)).toBe(finishAfter(long, tick, work))
      }),
    )
  })

  it('is none for a crew that is never at work together', () => {
    const calendars = [shifts(0, 40), shifts(50, 90)]
    const times = createCrewTimes(
      planProblem({ calendars, people: [planPerson(), planPerson({ calendar: 1 })] }),
    )
    expect(times(crewOf([0, 1], { people: 2 }), 0)).toBeNull()
  })
})
