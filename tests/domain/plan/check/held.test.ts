import { describe, expect, test } from 'vitest'
import type { Problem } from '../../../../domain/plan/problem.ts'
import {
  activity,
  faults,
  move,
  placement,
  planBay,
  planCar,
  planProblem,
  stay,
} from '../../../support/plan-problem.ts'

describe('support', () => {
  const bays = [planBay(), planBay()]
  const opened = planProblem({
    bays,
    cars: [planCar()],
    activities: [activity(), activity(), activity(), activity()],
    stands: [
      { car: 0, from: 0, until: 1 },
      { car: 0, from: 2, until: 3 },
    ],
    apart: [[0, 1]],
  })

  test('is lost on one side at a time', () => {
    const at = (third: number) => ({
      placed: [placement(0), placement(20), placement(third), placement(60)],
    })
    expect(faults(opened, at(30))).toEqual([])
    expect(faults(opened, at(29))).toEqual(['Stands 0 and 1 are open together from 29 on.'])
    expect(faults({ ...opened, apart: [] }, at(29))).toEqual([])
  })

  test('is lost for good where the repair is never welded', () => {
    const placed = [placement(0), null, placement(500), placement(600)]
    expect(faults(opened, { placed })).toEqual(['Stands 0 and 1 are open together from 500 on.'])
    expect(faults(opened, { placed: [null, null, placement(500), placement(600)] })).toEqual([])
  })

  test('that is lost at tick 0 counts as open from there', () => {
    const found = { ...opened, stands: [{ car: 0, from: null, until: 1 }, opened.stands[1]!] }
    expect(faults(found, { placed: [placement(0), placement(20), placement(29), placement(60)] })).toEqual([
      'Stands 0 and 1 are open together from 29 on.',
    ])
  })

  test('that is lost on both sides at tick 0 is no fault of the plan', () => {
    const found = {
      ...opened,
      stands: [
        { car: 0, from: null, until: 1 },
        { car: 0, from: null, until: 3 },
      ],
    }
    expect(faults(found, { placed: [placement(0), placement(20), placement(30), placement(60)] })).toEqual([])
  })

  test('holds a shell in its place while a side is open, unless it is braced', () => {
    const problem = (braced: boolean) =>
      planProblem({
        bays,
        cars: [planCar({ braced })],
        activities: [activity(), activity(), activity({ car: 0, bayKind: 0 })],
        stands: [{ car: 0, from: 0, until: 1 }],
        move: { work: 5, people: 0, able: [] },
      })
    const at = (start: number) => ({
      placed: [placement(20), placement(40), placement(80, { bay: 1 })],
      stays: [stay(0, 0, 0, start + 5), stay(0, 1, start, 90)],
      moves: [move(0, 0, 1, [start, start + 5])],
    })
    const fault = (start: number) => [`Car 0 moves at ${start} while its stand 0 is open.`]
    expect(faults(problem(false), at(15))).toEqual([])
    expect(faults(problem(false), at(16))).toEqual(fault(16))
    expect(faults(problem(false), at(49))).toEqual(fault(49))
    expect(faults(problem(false), at(50))).toEqual([])
    expect(faults(problem(true), at(30))).toEqual([])
    const instantly = { ...problem(false), move: { work: 0, people: 0, able: [] } }
    const inNoTime = {
      ...at(30),
      stays: [stay(0, 0, 0, 30), stay(0, 1, 30, 90)],
      moves: [move(0, 0, 1, [30, 30])],
    }
    expect(faults(instantly, inNoTime)).toEqual(fault(30))
  })
})

describe('resources', () => {
  test('are used by no more than there are', () => {
    const problem = planProblem({
      resources: [{ capacity: 3 }, { capacity: 1 }],
      activities: [
        activity({ uses: [{ resource: 0, amount: 2 }] }),
        activity({
          uses: [
            { resource: 0, amount: 2 },
            { resource: 1, amount: 1 },
          ],
        }),
        activity({ uses: [{ resource: 0, amount: 1 }] }),
      ],
    })
    expect(faults(problem, { placed: [placement(0), placement(10), placement(5)] })).toEqual([])
    expect(faults(problem, { placed: [placement(0), placement(9), placement(30)] })).toEqual([
      'Of resource 0 more than 3 is taken from 9 on.',
    ])
  })

  const jig = (held: boolean): Problem =>
    planProblem({
      resources: [{ capacity: 1 }],
      activities: [activity(), activity(), activity(), activity()],
      spans: [
        { resource: 0, amount: 1, activities: [0, 1], held },
        { resource: 0, amount: 1, activities: [2, 3], held: false },
      ],
    })

  test('are held from the first work on them to the last', () => {
    const at = (third: number) => ({
      placed: [placement(50), placement(100), placement(third), placement(200)],
    })
    expect(faults(jig(false), at(110))).toEqual([])
    expect(faults(jig(false), at(109))).toEqual(['Of resource 0 more than 1 is taken from 109 on.'])
    expect(
      faults(jig(false), { placed: [placement(50), placement(100), placement(20), placement(40)] }),
    ).toEqual([])
  })

  test('that are held at tick 0 are taken from there', () => {
    expect(
      faults(jig(true), { placed: [placement(50), placement(100), placement(20), placement(40)] }),
    ).toEqual(['Of resource 0 more than 1 is taken from 20 on.'])
  })
})
