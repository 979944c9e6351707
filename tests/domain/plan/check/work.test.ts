import { describe, expect, test } from 'vitest'
import type { Problem } from '../../../../domain/plan/problem.ts'
import {
  activity,
  crewOf,
  faults,
  move,
  placement,
  planBay,
  planCar,
  planPerson,
  planProblem,
  shifts,
  stay,
} from '../../../support/plan-problem.ts'

describe('an activity', () => {
  const one = (over: Parameters<typeof activity>[0]): Problem => planProblem({ activities: [activity(over)] })

  test('may start when it is allowed to, and not before', () => {
    const problem = one({ earliest: 30 })
    expect(faults(problem, { placed: [placement(30)] })).toEqual([])
    expect(faults(problem, { placed: [placement(29)] })).toEqual(['Activity 0 starts at 29, before 30.'])
  })

  test('starts at a whole tick from 0 on', () => {
    expect(faults(one({ earliest: -50 }), { placed: [placement(-1)] })).toEqual([
      'Activity 0 starts at -1, which is no tick from 0 on.',
    ])
    expect(faults(one({}), { placed: [placement(0.5)] })).toEqual([
      'Activity 0 starts at 0.5, which is no tick from 0 on.',
    ])
  })

  test('finishes by the horizon', () => {
    expect(faults(one({}), { placed: [placement(990)] })).toEqual([])
    expect(faults(one({}), { placed: [placement(991)] })).toEqual([
      'Activity 0 finishes at 1001, after the horizon 1000.',
    ])
  })

  test('without a crew runs through the night', () => {
    expect(faults(one({}), { placed: [placement(95)] })).toEqual([])
    expect(faults(one({}), { placed: [placement(95, { finish: 106 })] })).toEqual([
      'Activity 0 takes 11 ticks but needs 10.',
    ])
  })

  test('that is not placed breaks nothing', () => {
    expect(faults(one({ earliest: 5000 }), { placed: [null] })).toEqual([])
  })

  test('has an answer, be it that it is not placed', () => {
    expect(faults(one({}), { placed: [] })).toEqual(['The schedule answers 0 activities of 1.'])
  })
})

describe('order', () => {
  const problem = planProblem({
    activities: [activity(), activity()],
    links: [{ before: 0, after: 1, lag: 7 }],
  })

  test('is kept with its curing time', () => {
    expect(faults(problem, { placed: [placement(0), placement(17)] })).toEqual([])
    expect(faults(problem, { placed: [placement(0), placement(16)] })).toEqual([
      'Activity 1 starts at 16, but activity 0 allows it from 17 on.',
    ])
  })

  test('leaves work without a place only where all that follows has none', () => {
    expect(faults(problem, { placed: [placement(0), null] })).toEqual([])
    expect(faults(problem, { placed: [null, null] })).toEqual([])
    expect(faults(problem, { placed: [null, placement(50)] })).toEqual([
      'Activity 1 is placed, but activity 0 before it is not.',
    ])
  })
})

describe('a crew', () => {
  const people = [planPerson(), planPerson(), planPerson()]
  const problem = planProblem({
    people,
    activities: [activity({ crew: crewOf([0, 1], { people: 2, named: [1] }) })],
  })
  const withCrew = (crew: readonly number[]) => faults(problem, { placed: [placement(0, { crew })] })

  test('holds who is named, who is able, and as many as are needed', () => {
    expect(withCrew([1, 0])).toEqual([])
    expect(withCrew([1])).toEqual(['Activity 0 has a crew of 1 but needs 2.'])
    expect(withCrew([1, 2])).toEqual(['Activity 0 is given to person 2, who cannot do it.'])
  })

  test('has nobody in it twice', () => {
    expect(withCrew([1, 1])).toEqual(['Activity 0 has a person twice in its crew.'])
  })

  test('is not another than the named one', () => {
    const named = planProblem({ people, activities: [activity({ crew: crewOf([0, 1], { named: [1] }) })] })
    expect(faults(named, { placed: [placement(0, { crew: [0] })] })).toEqual([
      'Activity 0 is named for person 1, who is not in its crew.',
    ])
  })

  test('is not given to work that needs nobody', () => {
    const problem = planProblem({ people, activities: [activity()] })
    expect(faults(problem, { placed: [placement(0, { crew: [0] })] })).toEqual([
      'Activity 0 needs nobody but has a crew.',
    ])
  })
})

describe('working time', () => {
  const early = shifts(20, 60)
  const late = shifts(40, 80)
  const people = [planPerson({ calendar: 0 }), planPerson({ calendar: 1 })]
  const workshop = (over: Parameters<typeof activity>[0]): Problem =>
    planProblem({ calendars: [early, late], people, activities: [activity(over)] })

  test('pauses overnight and goes on', () => {
    const problem = workshop({ crew: crewOf([0]) })
    const at = (start: number, finish: number) =>
      faults(problem, { placed: [placement(start, { finish, crew: [0] })] })
    expect(at(55, 125)).toEqual([])
    expect(at(50, 60)).toEqual([])
    expect(at(55, 65)).toEqual([
      'Activity 0 gets 5 ticks of working time but needs 10.',
      "Activity 0 finishes at 65, outside its crew's working time.",
    ])
    expect(at(60, 130)).toEqual(["Activity 0 starts at 60, outside its crew's working time."])
    expect(at(50, 61)).toEqual(["Activity 0 finishes at 61, outside its crew's working time."])
    expect(at(50, 59)).toEqual(['Activity 0 gets 9 ticks of working time but needs 10.'])
  })

  test('of two people is when both are there', () => {
    const problem = workshop({ crew: crewOf([0, 1], { people: 2 }) })
    const at = (start: number, finish: number) =>
      faults(problem, { placed: [placement(start, { finish, crew: [0, 1] })] })
    expect(at(55, 145)).toEqual([])
    expect(at(30, 50)).toEqual(["Activity 0 starts at 30, outside its crew's working time."])
    expect(at(55, 125)).toEqual([
      'Activity 0 gets 5 ticks of working time but needs 10.',
      "Activity 0 finishes at 125, outside its crew's working time.",
    ])
  })

  test('counts for nothing where there is no work left', () => {
    const problem = workshop({ work: 0, crew: crewOf([0]) })
    expect(faults(problem, { placed: [placement(5, { finish: 5, crew: [0] })] })).toEqual([])
    expect(faults(problem, { placed: [placement(5, { finish: 6, crew: [0] })] })).toEqual([
      'Activity 0 takes 1 ticks but needs 0.',
    ])
  })

  test('for hot work ends so early that the watch is over when the last person goes', () => {
    // The early person's day ends at 60, the last person's at 80.
    const problem = workshop({ crew: crewOf([0, 1]), watch: 25 })
    const at = (start: number, finish: number, person: number) =>
      faults(problem, { placed: [placement(start, { finish, crew: [person] })] })
    expect(at(45, 55, 1)).toEqual([])
    expect(at(50, 145, 1)).toEqual([])
    expect(at(50, 60, 0)).toEqual([
      'Activity 0 gets 5 ticks of working time but needs 10.',
      "Activity 0 finishes at 60, outside its crew's working time.",
    ])
    expect(at(55, 150, 1)).toEqual(["Activity 0 starts at 55, outside its crew's working time."])
  })

  test('for hot work has no such end on a day that runs on over midnight', () => {
    const round = {
      calendars: [
        {
          spans: [
            { from: 20, to: 100 },
            { from: 100, to: 140 },
          ],
        },
      ],
      people: [planPerson()],
      activities: [activity({ crew: crewOf([0]), watch: 15 })],
    }
    const at = (start: number) => faults(planProblem(round), { placed: [placement(start, { crew: [0] })] })
    expect(at(95)).toEqual([])
    expect(at(115)).toEqual([])
    expect(at(116)).not.toEqual([])
    // The same spans with a break before midnight: that day ends at 90.
    const broken = {
      ...round,
      calendars: [
        {
          spans: [
            { from: 20, to: 90 },
            { from: 100, to: 140 },
          ],
        },
      ],
    }
    expect(faults(planProblem(broken), { placed: [placement(70, { finish: 105, crew: [0] })] })).toEqual([])
    expect(faults(planProblem(broken), { placed: [placement(70, { crew: [0] })] })).not.toEqual([])
  })
})

describe('a person', () => {
  const problem = planProblem({
    calendars: [shifts()],
    people: [planPerson()],
    bays: [planBay(), planBay()],
    cars: [planCar()],
    activities: [
      activity({ crew: crewOf([0]) }),
      activity({ crew: crewOf([0]) }),
      activity({ car: 0, bayKind: 0 }),
    ],
    move: { work: 5, people: 1, able: [0] },
  })
  const crew = [0]
  const bound = (second: number) => ({
    placed: [placement(20, { crew }), placement(second, { crew }), placement(70, { bay: 1 })],
    stays: [stay(0, 0, 0, 45), stay(0, 1, 40, 80)],
    moves: [move(0, 0, 1, [40, 45], crew)],
  })

  test('does one thing after the other', () => {
    expect(faults(problem, bound(30))).toEqual([])
    expect(faults(problem, bound(29))).toEqual([
      'Person 0 is still at activity 0 when activity 1 starts at 29.',
    ])
  })

  test('moves no shell while at work', () => {
    expect(faults(problem, bound(45))).toEqual([])
    expect(faults(problem, bound(44))).toEqual([
      'Person 0 is still at the move of car 0 when activity 1 starts at 44.',
    ])
  })

  test('begins nothing in the pause of other work', () => {
    const two = planProblem({
      calendars: [
        {
          spans: [
            { from: 0, to: 5 },
            { from: 10, to: 15 },
          ],
        },
        { spans: [{ from: 0, to: 50 }] },
      ],
      people: [planPerson({ calendar: 0 })],
      bays: [],
      activities: [
        activity({ crew: crewOf([0]) }),
        activity({ work: 0, crew: crewOf([0]) }),
        activity({ work: 1, crew: crewOf([0]) }),
      ],
    })
    expect(
      faults(two, {
        placed: [
          placement(0, { finish: 15, crew }),
          placement(7, { finish: 7, crew }),
          placement(12, { finish: 13, crew }),
        ],
      }),
    ).toEqual(['Person 0 is still at activity 0 when activity 2 starts at 12.'])
  })
})

describe('the order of first work', () => {
  test('is a wish of the solver and no rule', () => {
    const problem = planProblem({ activities: [activity({ first: 0 }), activity({ first: 1 })] })
    expect(faults(problem, { placed: [placement(500), placement(0)] })).toEqual([])
  })
})
