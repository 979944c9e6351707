import { describe, expect, test } from 'vitest'
import { pinClashes } from '../../../domain/plan/check.ts'
import type { Schedule } from '../../../domain/plan/schedule.ts'
import {
  activity,
  crewOf,
  DAY,
  faults,
  move,
  placement,
  planBay,
  planCar,
  planPerson,
  planProblem,
  schedule,
  shifts,
  stay,
} from '../../support/plan-problem.ts'
import { scoreSchedule } from '../../support/score-schedule.ts'

describe('a large schedule', () => {
  test('is checked whole: one clash among 1,280 activities is found', () => {
    const problem = planProblem({
      horizon: 20_000,
      calendars: [{ spans: [{ from: 0, to: 20_000 }] }],
      people: [planPerson()],
      activities: Array.from({ length: 1280 }, () => activity({ crew: crewOf([0]) })),
    })
    const placed = problem.activities.map((_, index) => placement(10 * index, { crew: [0] }))
    expect(faults(problem, { placed })).toEqual([])
    const clash = placed.with(700, placement(6999, { crew: [0] }))
    expect(faults(problem, { placed: clash })).toHaveLength(1)
  })
})

describe('the score', () => {
  const problem = planProblem({
    cars: [planCar({ due: 15, weight: 3 }), planCar({ due: 100, weight: 5 }), planCar({ due: null })],
    activities: [
      activity({ car: 0, tail: 12 }),
      activity({ car: 1 }),
      activity({ car: 2, inForce: { start: 30, crew: [1, 0] } }),
    ],
  })

  test('weighs each car by how late it is, curing of its last coat and all', () => {
    const late = schedule({ placed: [placement(0), placement(0), placement(30, { crew: [0, 1] })] })
    expect(scoreSchedule(problem, late)).toEqual({ lateness: 3 * 7, moves: 0, end: 40, changes: 0 })
  })

  test('counts moves, and the end with its curing', () => {
    const placed = [placement(90), placement(91), placement(0, { crew: [0, 1] })]
    const moves = [move(0, null, 0, [0, 4]), move(0, 0, 1, [4, 8])]
    expect(scoreSchedule(problem, schedule({ placed, moves }))).toEqual({
      lateness: 3 * 97 + 5 * 1,
      moves: 2,
      end: 112,
      changes: 0,
    })
  })

  test('counts another crew or another day as a change, another hour not', () => {
    const changes = (start: number, crew: readonly number[]) =>
      scoreSchedule(problem, schedule({ placed: [placement(0), placement(0), placement(start, { crew })] }))
        .changes
    expect(changes(70, [0, 1])).toBe(0)
    expect(changes(DAY + 30, [0, 1])).toBe(1)
    expect(changes(30, [0, 2])).toBe(1)
    expect(changes(DAY, [2])).toBe(1)
  })

  test('takes work without a place as late as nothing that is placed can be', () => {
    const { lateness, end, changes } = scoreSchedule(
      problem,
      schedule({ placed: [null, placement(0), null] }),
    )
    expect({ lateness, end, changes }).toEqual({ lateness: 3 * (2000 - 15), end: 2000, changes: 1 })
  })
})

describe('pins that clash', () => {
  test('name work that starts after its pinned day', () => {
    const problem = planProblem({
      activities: [activity({ latestStart: 50 }), activity({ latestStart: 50 })],
    })
    expect(pinClashes(problem, schedule({ placed: [placement(50), placement(51)] }))).toEqual([
      { kind: 'day', activity: 1 },
    ])
    expect(pinClashes(problem, schedule({ placed: [null, null] }))).toEqual([])
  })

  describe('name bookings', () => {
    /** Booked from the evening of the first day, when nobody works any more. */
    const problem = planProblem({
      calendars: [shifts()],
      people: [planPerson()],
      bays: [planBay(), planBay()],
      cars: [planCar({ bay: null, bookings: [{ bay: 1, from: 80, to: 400 }] })],
    })
    const clashes = (stays: Schedule['stays']) => pinClashes(problem, schedule({ stays }))
    const missed = [{ kind: 'booking', car: 0, booking: 0 }]

    test('whose car is not there by the end of the first working day', () => {
      expect(clashes([stay(0, 1, 80, 300)])).toEqual([])
      expect(clashes([stay(0, 1, 2 * DAY - 1, 300)])).toEqual([])
      expect(clashes([stay(0, 1, 2 * DAY, 300)])).toEqual(missed)
    })

    test('whose car comes to another bay, or has left before', () => {
      expect(clashes([stay(0, 0, 80, 300)])).toEqual(missed)
      expect(clashes([stay(0, 1, 10, 80)])).toEqual(missed)
      expect(clashes([stay(0, 1, 10, 81)])).toEqual([])
      expect(clashes([])).toEqual(missed)
    })
  })
})
