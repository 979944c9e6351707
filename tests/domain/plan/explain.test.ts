import { describe, expect, it } from 'vitest'
import type { BuiltWork } from '../../../domain/plan/build-problem.ts'
import { explainStarts } from '../../../domain/plan/explain.ts'
import type { Problem } from '../../../domain/plan/problem.ts'
import type { Schedule } from '../../../domain/plan/schedule.ts'
import { solve } from '../../../domain/plan/solve/solve.ts'
import { builtProblem } from '../../support/built-problem.ts'
import {
  activity,
  crewOf,
  move,
  placement,
  planBay,
  planCar,
  planPerson,
  planProblem,
  schedule,
  stay,
} from '../../support/plan-problem.ts'
import { MIDDLE, randomWorkshopProblem } from '../../support/random-workshop-problem.ts'

/** Why the last activity starts when it does. A tick is five minutes, and tick 0 is Mon 23 Nov, 00:00. */
const whyLast = (problem: Problem, plan: Schedule, work: readonly Partial<BuiltWork>[] = []) =>
  explainStarts(builtProblem(problem, work), plan).at(-1)!

const onCar = (car: number, over = {}) => activity({ car, bayKind: 0, ...over })
const byPerson = (over = {}) => activity({ crew: crewOf([0]), car: 0, ...over })
const SHIFT = { from: 96, to: 192 }

/** At work from 08:00 to 16:00 on Monday and on Tuesday. */
const twoDays = [{ spans: [SHIFT, { from: 96 + 288, to: 192 + 288 }] }]
const shop = (over: Partial<Problem>): Problem =>
  planProblem({
    horizon: 5 * 288,
    midnights: [0, 288, 576, 864],
    calendars: twoDays,
    people: [planPerson()],
    cars: [planCar(), planCar()],
    ...over,
  })

describe('why work starts when it does', () => {
  it('can start now, or is begun', () => {
    const problem = planProblem({ activities: [activity()] })
    const plan = schedule({ placed: [placement(0)] })
    expect(whyLast(problem, plan)).toEqual({ reason: 'now', words: 'can start now' })
    expect(whyLast(problem, plan, [{ begun: true }])).toEqual({ reason: 'begun', words: 'is begun already' })
  })

  it('waits for a part, a decision, a pinned day', () => {
    const problem = planProblem({ activities: [activity({ earliest: 120 })] })
    const plan = schedule({ placed: [placement(120)] })
    expect(whyLast(problem, plan)).toEqual({ reason: 'parts', words: 'waits: Outer skin: ordered' })
    const pinned = [{ tick: 120, reason: 'pinned' as const, words: 'Pinned to Thu 26 Nov.' }]
    expect(whyLast(problem, plan, [{ earliest: pinned }])).toEqual({
      reason: 'pinned',
      words: 'is pinned to Thu 26 Nov',
    })
  })

  it('waits for the gate before and for what cures', () => {
    const problem = (lag: number) =>
      planProblem({ activities: [activity(), activity()], links: [{ before: 0, after: 1, lag }] })
    expect(whyLast(problem(0), schedule({ placed: [placement(2), placement(12)] }))).toEqual({
      reason: 'order',
      words: 'waits for Work 1 until Mon 23 Nov 01:00',
    })
    expect(whyLast(problem(12), schedule({ placed: [placement(2), placement(24)] }))).toEqual({
      reason: 'curing',
      words: 'waits for Work 1 to cure until Mon 23 Nov 02:00',
    })
  })

  it('waits for somebody who is on another car', () => {
    const problem = shop({ activities: [byPerson({ car: 1 }), byPerson()] })
    const plan = schedule({ placed: [placement(96, { crew: [0] }), placement(106, { crew: [0] })] })
    expect(whyLast(problem, plan)).toEqual({
      reason: 'people',
      words: 'waits for Joss until Mon 23 Nov 08:50, first on Work 1 on Larkspur',
    })
  })

  it('says of a bay when it is free, whom it waits for, and when the shell is in', () => {
    const problem = planProblem({
      bays: [planBay()],
      cars: [planCar(), planCar({ bay: null })],
      activities: [onCar(0), onCar(1)],
      move: { work: 2, people: 0, able: [] },
    })
    const plan = schedule({
      placed: [placement(0, { bay: 0 }), placement(12, { bay: 0 })],
      stays: [stay(0, 0, 0, 10), stay(1, 0, 10, 22)],
      moves: [move(1, null, 0, [10, 12])],
    })
    expect(whyLast(problem, plan)).toEqual({
      reason: 'bay',
      words:
        'waits for Bay 1, free from Mon 23 Nov 00:50 when Marrick has left; moved into Bay 1 by Mon 23 Nov 01:00',
    })
  })

  it('says that a car is not here before, or its booking has not begun', () => {
    const plan = schedule({
      placed: [placement(12, { bay: 0 })],
      stays: [stay(0, 0, 12, 22)],
      moves: [move(0, null, 0, [12, 12])],
    })
    const problem = (over: Parameters<typeof planCar>[0]) =>
      planProblem({ bays: [planBay()], cars: [planCar({ bay: null, ...over })], activities: [onCar(0)] })
    expect(whyLast(problem({ arrives: 12 }), plan).reason).toBe('away')
    expect(whyLast(problem({ bookings: [{ bay: 0, from: 12, to: 99 }] }), plan).reason).toBe('pinned')
    // A move that waits for nothing was planned so.
    expect(whyLast(problem({}), plan)).toEqual({
      reason: 'move',
      words: 'waits until Mon 23 Nov 01:00, when the shell is moved into Bay 1',
    })
  })

  it('waits for the other side to be closed', () => {
    const problem = planProblem({
      cars: [planCar()],
      activities: [activity({ car: 0 }), activity({ car: 0 })],
      stands: [
        { car: 0, from: 0, until: 0 },
        { car: 0, from: 1, until: 1 },
      ],
      apart: [[0, 1]],
    })
    expect(whyLast(problem, schedule({ placed: [placement(0), placement(10)] }))).toEqual({
      reason: 'support',
      words: 'waits for Work 1 until Mon 23 Nov 00:50, because one side stands open at a time',
    })
  })

  it('waits for the jig while all are taken, and not while one is free', () => {
    const problem = (capacity: number) =>
      planProblem({
        cars: [planCar(), planCar()],
        resources: [{ capacity }],
        activities: [activity({ car: 0 }), activity({ car: 1 })],
        spans: [0, 1].map((each) => ({ resource: 0, amount: 1, activities: [each], held: false })),
      })
    const plan = schedule({ placed: [placement(0), placement(10)] })
    expect(whyLast(problem(1), plan)).toEqual({
      reason: 'fixture',
      words: 'waits for its fixture until Mon 23 Nov 00:50, first on Work 1 on Marrick',
    })
    expect(whyLast(problem(2), plan).reason).not.toBe('fixture')
  })

  it('waits for the jig over the night in which it comes free', () => {
    const problem = shop({
      resources: [{ capacity: 1 }],
      activities: [activity({ car: 1, work: 230 }), byPerson()],
      spans: [0, 1].map((each) => ({ resource: 0, amount: 1, activities: [each], held: false })),
    })
    const plan = schedule({ placed: [placement(0, { finish: 230 }), placement(384, { crew: [0] })] })
    expect(whyLast(problem, plan)).toEqual({
      reason: 'fixture',
      words:
        'waits for its fixture until Mon 23 Nov 19:10, first on Work 1 on Larkspur; work goes on Tue 24 Nov 08:00',
    })
  })

  it('waits for the day to begin, and tells what ended in the night instead', () => {
    const alone = shop({ activities: [byPerson()] })
    expect(whyLast(alone, schedule({ placed: [placement(96, { crew: [0] })] }))).toEqual({
      reason: 'hours',
      words: 'starts when the day begins, Mon 23 Nov 08:00',
    })
    const cured = shop({
      activities: [byPerson(), byPerson()],
      links: [{ before: 0, after: 1, lag: 120 }],
    })
    const plan = schedule({ placed: [placement(180, { crew: [0] }), placement(384, { crew: [0] })] })
    expect(whyLast(cured, plan)).toEqual({
      reason: 'curing',
      words: 'waits for Work 1 to cure until Tue 24 Nov 01:50; work goes on Tue 24 Nov 08:00',
    })
  })

  it('waits for people who are not at work when others are', () => {
    const problem = shop({
      calendars: [{ spans: [SHIFT] }, { spans: [{ from: 384, to: 480 }] }],
      people: [planPerson(), planPerson({ calendar: 1 })],
      activities: [activity({ car: 0, crew: crewOf([1]), earliest: 90 })],
    })
    expect(whyLast(problem, schedule({ placed: [placement(384, { crew: [1] })] }))).toEqual({
      reason: 'hours',
      words: 'waits until Vera is at work, Tue 24 Nov 08:00',
    })
  })

  it('puts hot work off whose watch would outlast the day', () => {
    const problem = shop({ activities: [byPerson({ earliest: 185, watch: 12 })] })
    expect(whyLast(problem, schedule({ placed: [placement(384, { crew: [0] })] }))).toEqual({
      reason: 'fire watch',
      words: 'is hot work, whose watch would outlast the day; starts Tue 24 Nov 08:00',
    })
  })

  it('owns up to a start that nothing holds back', () => {
    const problem = planProblem({ activities: [activity({ earliest: 12 })] })
    expect(whyLast(problem, schedule({ placed: [placement(24)] }))).toEqual({
      reason: 'parts',
      words: 'waits: Outer skin: ordered, and is put off until Mon 23 Nov 02:00',
    })
  })

  it('says nothing of what is not placed', () => {
    const problem = planProblem({ activities: [activity()] })
    expect(whyLast(problem, schedule({ placed: [null] })).words).toBe('')
  })

  it('finds what held it for nearly every start of a plan', () => {
    const starts = Array.from({ length: 40 }, (_, seed) => {
      const problem = randomWorkshopProblem(seed + 1, MIDDLE)
      return explainStarts(builtProblem(problem), solve(problem, { seed: 1, schedules: 6 }).schedule)
    }).flat()
    const putOff = starts.filter(({ words }) => words.includes('put off'))
    expect(starts.length).toBeGreaterThan(2000)
    // People are booked for a shell's leaving beforehand, and a leaving that is dropped later may leave a gap before a
    // start: one in some thousands.
    expect(putOff.length / starts.length).toBeLessThan(0.001)
  })
})
