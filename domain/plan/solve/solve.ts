import type { Problem } from '../problem.ts'
import type { Schedule, Score } from '../schedule.ts'
import { copyChoices, createChoices } from './choices.ts'
import { compile, type Compiled } from './compile.ts'
import type { SearchSpace } from './decoder.ts'
import { createGenerator, type Generator } from './generate.ts'
import { inLinkOrder } from './link-order.ts'
import { mirror } from './mirror.ts'
import { workshopPriorities } from './priorities.ts'
import { createRandom } from './random.ts'
import { compareScores, NOT_KEPT } from './score.ts'
import { createShifts, type Incumbent, type Shifts } from './shifts.ts'

export interface Solution {
  readonly schedule: Schedule
  readonly score: Score
  /** How many schedules were made for it. */
  readonly schedules: number
}

/** A search that can be carried on: give it more schedules and ask for the best so far. */
export interface Solver {
  readonly run: (schedules: number) => void
  readonly best: () => Solution
}

/**
 * Plans a problem as well as a budget of schedules lets it. The same problem, seed and budget give the same plan on every
 * machine: nothing is ruled by a clock. Work that cannot be placed at all stays unplaced and is told by `placed` being
 * null; a problem with circular links must be mended before.
 */
export function solve(problem: Problem, budget: Budget): Solution {
  const solver = createSolver(problem, budget)
  solver.run(budget.schedules)
  return solver.best()
}

export interface Budget {
  readonly seed: number
  /** Every pass of the generation scheme counts as one. */
  readonly schedules: number
}

/** The budget is known from the start, because the search cools over the whole of it. */
export function createSolver(problem: Problem, { seed, schedules }: Budget): Solver {
  const compiled = compile(problem)
  const forward = createGenerator(compiled)
  const space = searchSpace(compiled, forward)
  const random = createRandom(seed)
  let used = 0
  let shifts: Shifts | null = null
  const begin = (): Shifts => {
    const rules = ruleLists(space)
    used = rules.length
    return createShifts(space, random, bestOf(problem, forward, rules), schedules)
  }
  return {
    run: (more) => {
      // With nothing to plan there is nothing to search.
      if (compiled.size === 0) return
      shifts ??= begin()
      for (let end = Math.min(schedules, used + more); used < end; used += 1) shifts.step(used / schedules)
    },
    best: () => {
      shifts ??= begin()
      copyChoices(shifts.best.choices, forward.choices)
      forward.decode(shifts.best.list)
      return { schedule: forward.schedule(), score: scoreOf(forward), schedules: used }
    },
  }
}

const ruleLists = (space: SearchSpace): readonly Int32Array[] => {
  const linked = inLinkOrder(space)
  return space.priorities.map((priority) => {
    const keys = Float64Array.from(priority)
    for (const activity of linked)
      for (
        let at = space.predecessors.offsets[activity] as number;
        at < (space.predecessors.offsets[activity + 1] as number);
        at += 1
      )
        keys[activity] = Math.max(
          keys[activity] as number,
          keys[space.predecessors.items[at] as number] as number,
        )
    return linked.slice().sort((a, b) => (keys[a] as number) - (keys[b] as number))
  })
}

const bestOf = (problem: Problem, forward: Generator, lists: readonly Int32Array[]): Incumbent => {
  let best: Incumbent | null = null
  const choices = createChoices({ size: forward.size, problem })
  for (const list of lists) {
    forward.decode(list)
    if (best === null || compareScores(forward.score, best.score) < 0)
      best = { list, score: forward.score.slice(), choices }
  }
  return best ?? { list: new Int32Array(0), score: new Float64Array(4), choices }
}

const searchSpace = (compiled: Compiled, forward: Generator): SearchSpace => {
  const turned = mirror(compiled.problem)
  return {
    problem: compiled.problem,
    size: compiled.size,
    forward,
    backward: turned === null ? null : createGenerator(compile(turned)),
    predecessors: compiled.predecessors,
    successors: compiled.successors,
    groups: compiled.repair,
    cars: compiled.car,
    priorities: workshopPriorities(compiled),
    bound: null,
  }
}

const scoreOf = ({ score }: Generator): Score => ({
  lateness: (score[0] as number) % NOT_KEPT,
  moves: score[1] as number,
  end: score[2] as number,
  changes: score[3] as number,
})
