import { describe, expect, it } from 'vitest'
import { checkSchedule } from '../../../domain/plan/check.ts'
import type { Problem } from '../../../domain/plan/problem.ts'
import { compile } from '../../../domain/plan/solve/compile.ts'
import { createGenerator } from '../../../domain/plan/solve/generate.ts'
import { solve } from '../../../domain/plan/solve/solve.ts'
import { FT06, GRAHAM, J301_1, PATTERSON_1 } from '../../support/plain-projects.ts'
import { type PlainProject, projectToProblem } from '../../support/psplib.ts'

const BUDGET = { seed: 1, schedules: 5000 }

/** Last finish of a plan that the check has passed. */
function endOf(problem: Problem, budget = BUDGET): number {
  const { schedule, score } = solve(problem, budget)
  expect(checkSchedule(problem, schedule)).toEqual([])
  expect(Math.max(...schedule.placed.map((each) => each?.finish ?? Infinity))).toBe(score.end)
  return score.end
}

describe('published projects are planned to their optimum', () => {
  it.each([
    // Values with their sources stand beside the projects.
    ['PSPLIB j301_1', J301_1, 43],
    ['Patterson 1', PATTERSON_1, 19],
    ['job shop ft06', FT06, 55],
  ])('%s', (_, project, optimum) => {
    expect(endOf(projectToProblem(project))).toBe(optimum)
  })
})

describe('the same seed and budget', () => {
  it('give the same plan', () => {
    const problem = projectToProblem(J301_1)
    const budget = { seed: 5, schedules: 300 }
    expect(solve(problem, budget)).toEqual(solve(problem, budget))
  })

  it('are kept to: no more schedules are made', () => {
    expect(solve(projectToProblem(FT06), { seed: 1, schedules: 50 }).schedules).toBeLessThanOrEqual(50)
  })
})

const machines = (count: number) => ({ ...GRAHAM, capacities: [count] })
const oneShorter = { ...GRAHAM, durations: GRAHAM.durations.map((ticks) => ticks - 1) }
const fewerLinks = {
  ...GRAHAM,
  successors: GRAHAM.successors.map((next, task) => (task === 3 ? [6, 7] : next)),
}
const PLAIN_LIST = [0, 1, 2, 3, 4, 5, 6, 7, 8]
const OTHER_LIST = [0, 1, 3, 4, 5, 2, 8, 6, 7]

describe("Graham's anomalies", () => {
  // Graham 1966, 1969; figures from memory and reckoned again.
  it.each([
    ['the plain list', GRAHAM, PLAIN_LIST, 12],
    ['another list', GRAHAM, OTHER_LIST, 14],
    ['a fourth machine', machines(4), PLAIN_LIST, 15],
    ['every task one shorter', oneShorter, PLAIN_LIST, 13],
    ['two links fewer', fewerLinks, PLAIN_LIST, 16],
  ])('list scheduling ends later with less in its way: %s', (_, project, list, end) => {
    const generator = createGenerator(compile(projectToProblem(project)))
    generator.decode(listSchedulingOrder(project, list))
    expect(generator.score[2]).toBe(end)
  })

  it('are none to the planner, which never ends later for having more', () => {
    const usual = endOf(projectToProblem(GRAHAM))
    expect(usual).toBe(12)
    for (const project of [machines(4), oneShorter, fewerLinks])
      expect(endOf(projectToProblem(project))).toBeLessThanOrEqual(usual)
  })
})

/** Whenever a machine is free, the first of the list that can begin does: the order in which the tasks begin so. */
function listSchedulingOrder(project: PlainProject, list: readonly number[]): Int32Array {
  const finish = new Map<number, number>()
  const before = project.durations.map((_, task) =>
    project.successors.flatMap((next, each) => (next.includes(task) ? [each] : [])),
  )
  for (let tick = 0; finish.size < list.length; tick += 1) {
    for (const task of list) {
      const busy = [...finish.values()].filter((each) => each > tick).length
      const isReady = before[task]!.every((each) => (finish.get(each) ?? Infinity) <= tick)
      if (!finish.has(task) && isReady && busy < project.capacities[0]!)
        finish.set(task, tick + project.durations[task]!)
    }
  }
  return Int32Array.from(finish.keys())
}
