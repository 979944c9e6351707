import { describe, expect, test } from 'vitest'
import type { Problem } from '../../../../domain/plan/problem.ts'
import type { Schedule } from '../../../../domain/plan/schedule.ts'
import {
  activity,
  faults,
  move,
  placement,
  planBay,
  planCar,
  planPerson,
  planProblem,
  planYard,
  shifts,
  stay,
} from '../../../support/plan-problem.ts'

describe('a bay', () => {
  const bays = [planBay({ kinds: [0] }), planBay({ kinds: [0, 1] }), planYard()]
  const inBay = (car: number, bayKind = 0) => activity({ car, bayKind })

  test('is of the kind that the work needs', () => {
    const problem = planProblem({
      bays,
      cars: [planCar(), planCar({ bay: 1 })],
      activities: [inBay(0, 1), inBay(1, 1)],
    })
    expect(
      faults(problem, {
        placed: [placement(0, { bay: 0 }), placement(0, { bay: 1 })],
        stays: [stay(0, 0, 0, 10), stay(1, 1, 0, 10)],
      }),
    ).toEqual(['Activity 0 is placed in bay 0, which is not fit for it.'])
  })

  test('is no yard', () => {
    const yard = { ...planYard(), kinds: [0] }
    const problem = planProblem({ bays: [yard], cars: [planCar()], activities: [inBay(0)] })
    const answer = { placed: [placement(0, { bay: 0 })], stays: [stay(0, 0, 0, 10)] }
    expect(faults({ ...problem, bays: [planBay()] }, answer)).toEqual([])
    expect(faults(problem, answer)).toEqual(['Activity 0 is placed in bay 0, which is not fit for it.'])
  })

  test('is named for work that needs one, and for no other', () => {
    const problem = planProblem({ bays, cars: [planCar()], activities: [inBay(0), activity({ car: 0 })] })
    const stays = [stay(0, 0, 0, 10)]
    expect(faults(problem, { placed: [placement(0, { bay: 0 }), placement(50)], stays })).toEqual([])
    expect(faults(problem, { placed: [placement(0), placement(50)], stays })).toEqual([
      'Activity 0 needs a bay but is placed in none.',
    ])
    expect(faults(problem, { placed: [placement(0, { bay: 0 }), placement(50, { bay: 0 })], stays })).toEqual(
      ['Activity 1 needs no bay but is placed in bay 0.'],
    )
  })

  test('takes as many shells as it has places', () => {
    const problem = (places: number) =>
      planProblem({
        bays: [planBay({ places })],
        cars: [planCar(), planCar({ bay: null })],
        activities: [inBay(0), inBay(1)],
      })
    const second = (start: number) => ({
      placed: [placement(0, { bay: 0 }), placement(start, { bay: 0 })],
      stays: [stay(0, 0, 0, 10), stay(1, 0, start, start + 10)],
      moves: [move(1, null, 0, [start, start])],
    })
    expect(faults(problem(1), second(10))).toEqual([])
    expect(faults(problem(1), second(9))).toEqual(['Bay 0 takes 1, but holds more from 9 on.'])
    expect(faults(problem(2), second(9))).toEqual([])
  })
})

describe('a shell', () => {
  const bays = [planBay(), planBay(), planYard()]
  const problem = (over: Partial<Problem> = {}) =>
    planProblem({
      bays,
      cars: [planCar()],
      activities: [activity({ car: 0, bayKind: 0 }), activity({ car: 0, bayKind: 0 })],
      move: { work: 4, people: 0, able: [] },
      ...over,
    })
  /** Works in bay 0 until 10, waits, is moved to bay 1 from 20 to 24 and works there until 34. */
  const moved: Schedule = {
    placed: [placement(0, { bay: 0 }), placement(24, { bay: 1 })],
    stays: [stay(0, 0, 0, 24), stay(0, 1, 20, 34)],
    moves: [move(0, 0, 1, [20, 24])],
  }

  test('works on in another bay when it has been moved', () => {
    expect(faults(problem(), moved)).toEqual([])
  })

  test('waits in a yard between bays', () => {
    const parked = {
      placed: [placement(0, { bay: 0 }), placement(54, { bay: 0 })],
      stays: [stay(0, 0, 0, 14), stay(0, 2, 10, 54), stay(0, 0, 50, 64)],
      moves: [move(0, 0, 2, [10, 14]), move(0, 2, 0, [50, 54])],
    }
    expect(faults(problem(), parked)).toEqual([])
  })

  test('is worked on only where it stands', () => {
    const placed = [placement(0, { bay: 0 }), placement(24, { bay: 0 })]
    expect(faults(problem(), { ...moved, placed })).toEqual([
      'Activity 1 runs from 24 to 34, but car 0 does not stand still in bay 0 then.',
    ])
  })

  test('is not worked on while it moves', () => {
    const late = [placement(11, { bay: 0 }), placement(24, { bay: 1 })]
    expect(faults(problem(), { ...moved, placed: late })).toEqual([
      'Activity 0 runs from 11 to 21, but car 0 does not stand still in bay 0 then.',
    ])
    const early = [placement(0, { bay: 0 }), placement(23, { bay: 1 })]
    expect(
      faults(problem(), { ...moved, placed: early, stays: [stay(0, 0, 0, 24), stay(0, 1, 20, 33)] }),
    ).toEqual(['Activity 1 runs from 23 to 33, but car 0 does not stand still in bay 1 then.'])
  })

  test('takes both bays while it moves', () => {
    const two = problem({
      cars: [planCar(), planCar({ bay: null })],
      activities: [
        activity({ car: 0, bayKind: 0 }),
        activity({ car: 0, bayKind: 0 }),
        activity({ car: 1, bayKind: 0 }),
      ],
    })
    const follows = (start: number): Schedule => ({
      placed: [...moved.placed, placement(start + 4, { bay: 0 })],
      stays: [...moved.stays, stay(1, 0, start, start + 14)],
      moves: [...moved.moves, move(1, null, 0, [start, start + 4])],
    })
    expect(faults(two, follows(24))).toEqual([])
    expect(faults(two, follows(23))).toEqual(['Bay 0 takes 1, but holds more from 23 on.'])
  })

  test('gives its bay up when the move out is finished', () => {
    const stays = [stay(0, 0, 0, 22), stay(0, 1, 20, 34)]
    expect(faults(problem(), { ...moved, stays })).toEqual([
      "Car 0's stay in bay 0 ends at 22, but the move out of it finishes at 24.",
    ])
  })

  test('takes its bay when the move in starts', () => {
    const stays = [stay(0, 0, 0, 24), stay(0, 1, 24, 34)]
    expect(faults(problem(), { ...moved, stays })).toEqual([
      "Car 0's stay in bay 1 begins at 24, but the move into it starts at 20.",
    ])
  })

  test('changes its bay only by a move', () => {
    expect(faults(problem(), { ...moved, moves: [] })).toEqual(['Car 0 has 2 stays where 0 moves make 1.'])
  })

  test('begins where it stands at tick 0', () => {
    expect(faults(problem({ cars: [planCar({ bay: 2 })] }), moved)).toEqual([
      "Car 0's stay in bay 0 comes first, but the shell stands in bay 2.",
    ])
    const late = {
      ...moved,
      stays: [stay(0, 0, 3, 24), stay(0, 1, 20, 34)],
      placed: [placement(5, { bay: 0 }), placement(24, { bay: 1 })],
    }
    expect(faults(problem(), late)).toEqual([
      "Car 0's stay in bay 0 begins at 3, but the shell stands there at 0.",
    ])
  })

  test('comes from where it stood', () => {
    expect(faults(problem(), { ...moved, moves: [move(0, 2, 1, [20, 24])] })).toEqual([
      "Car 0's stay in bay 1 begins by a move from bay 2, but the shell comes from bay 0.",
    ])
  })

  test('is moved to where it stands next', () => {
    expect(faults(problem(), { ...moved, moves: [move(0, 0, 2, [20, 24])] })).toEqual([
      "Car 0's stay in bay 1 begins by a move to bay 2.",
    ])
  })

  test('takes the time that a move takes', () => {
    const stays = [stay(0, 0, 0, 23), stay(0, 1, 20, 34)]
    expect(faults(problem(), { ...moved, stays, moves: [move(0, 0, 1, [20, 23])] })).toEqual([
      'The move of car 0 to bay 1 takes 3 ticks but needs 4.',
    ])
  })

  test('is moved by people who may, all at work', () => {
    const people = [planPerson(), planPerson(), planPerson()]
    const calendars = [shifts(0, 22)]
    const hands = problem({ calendars, people, move: { work: 4, people: 2, able: [0, 1] } })
    const by = (crew: readonly number[], start = 18) =>
      faults(hands, {
        ...moved,
        stays: [stay(0, 0, 0, start + 4), stay(0, 1, start, 34)],
        moves: [move(0, 0, 1, [start, start + 4], crew)],
      })
    expect(by([0, 1])).toEqual([])
    expect(by([0])).toEqual(['The move of car 0 to bay 1 has a crew of 1 but needs 2.'])
    expect(by([0, 2])).toEqual(['The move of car 0 to bay 1 is given to person 2, who cannot do it.'])
    expect(by([0, 1], 20)).toEqual([
      'The move of car 0 to bay 1 gets 2 ticks of working time but needs 4.',
      "The move of car 0 to bay 1 finishes at 24, outside its crew's working time.",
    ])
  })

  test('is not moved to the bay it stands in', () => {
    const same = {
      placed: [placement(0, { bay: 0 }), placement(24, { bay: 0 })],
      stays: [stay(0, 0, 0, 24), stay(0, 0, 20, 34)],
      moves: [move(0, 0, 0, [20, 24])],
    }
    expect(faults(problem({ bays: [planBay({ places: 2 })] }), same)).toEqual([
      'The move of car 0 to bay 0 leads from bay 0 to the same bay.',
    ])
  })

  test('comes by a move from outside, not before it is here', () => {
    const away = (arrives: number) =>
      problem({ cars: [planCar({ bay: null, arrives })], activities: [activity({ car: 0, bayKind: 0 })] })
    const brought = {
      placed: [placement(34, { bay: 1 })],
      stays: [stay(0, 1, 30, 44)],
      moves: [move(0, null, 1, [30, 34])],
    }
    expect(faults(away(30), brought)).toEqual([])
    expect(faults(away(31), brought)).toEqual([
      "Car 0's stay in bay 1 begins at 30, but the car is not here before 31.",
    ])
    expect(faults(away(30), { ...brought, moves: [] })).toEqual(['Car 0 has 1 stays where 0 moves make 0.'])
  })

  test('leaves with its last work in a bay', () => {
    const problem = planProblem({
      bays,
      cars: [planCar()],
      activities: [activity({ car: 0, bayKind: 0 }), activity({ car: 0 })],
    })
    const placed = [placement(0, { bay: 0 }), placement(20)]
    expect(faults(problem, { placed, stays: [stay(0, 0, 0, 10)] })).toEqual([])
    expect(faults(problem, { placed, stays: [stay(0, 0, 0, 30)] })).toEqual([
      'Car 0 leaves bay 0 at 30, but its last work in a bay finishes at 10.',
    ])
  })

  test('may wait to the horizon when work in a bay is not placed', () => {
    const placed = [placement(0, { bay: 0 }), null]
    expect(faults(problem(), { placed, stays: [stay(0, 0, 0, 1000)] })).toEqual([])
    expect(faults(problem(), { placed, stays: [stay(0, 0, 0, 1001)] })).toEqual([
      'Car 0 stays until 1001, after the horizon.',
    ])
  })

  test('and its bay exist', () => {
    const problem = planProblem({ bays: [planBay()] })
    expect(faults(problem, { stays: [stay(3, 0, 0, 10)] })).toEqual(['There is no car 3.'])
    expect(faults({ ...problem, cars: [planCar({ bay: 7 })] }, { stays: [stay(0, 7, 0, 0)] })).toEqual([
      'There is no bay 7.',
    ])
  })
})

describe('a booking', () => {
  const problem = planProblem({
    bays: [planBay(), planBay()],
    cars: [planCar(), planCar({ bay: 1, bookings: [{ bay: 0, from: 50, to: 80 }] })],
    activities: [activity({ car: 0, bayKind: 0 }), activity({ car: 1, bayKind: 0 })],
  })
  const other = [placement(0, { bay: 1 }), stay(1, 1, 0, 10)] as const
  const first = (start: number) => ({
    placed: [placement(start, { bay: 0 }), other[0]],
    stays: [stay(0, 0, 0, start + 10), other[1]],
  })

  test('keeps other cars out of the bay', () => {
    expect(faults(problem, first(40))).toEqual([])
    expect(faults(problem, first(41))).toEqual(['Bay 0 is booked for car 1, but car 0 is in it at 50.'])
  })

  test('keeps one place of a bay with several', () => {
    const wide = { ...problem, bays: [planBay({ places: 2 }), planBay()] }
    expect(faults(wide, first(60))).toEqual([])
  })

  test('is for the car that it is made for', () => {
    const own = {
      ...problem,
      cars: [planCar({ bookings: [{ bay: 0, from: 5, to: 80 }] }), planCar({ bay: 1 })],
    }
    expect(faults(own, first(60))).toEqual([])
  })
})
