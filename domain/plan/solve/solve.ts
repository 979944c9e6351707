import type { Problem } from '../problem.ts'
import type { Schedule, Score } from '../schedule.ts'
import { compile, type Compiled } from './compile.ts'
import type { SearchSpace } from './decoder.ts'
import { createGenerator, type Generator } from './generate.ts'
import { mirror } from './mirror.ts'
import { workshopPriorities } from './priorities.ts'
import { createSearch } from './search.ts'

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
export function solve(problem: Problem, budget: { readonly seed: number; readonly schedules: number }): Solution {
  const solver = createSolver(problem, budget)
  solver.run(budget.schedules)
  return solver.best()
}

export function createSolver(problem: Problem, { seed }: { readonly seed: number }): Solver {
  const compiled = compile(problem)
  const forward = createGenerator(compiled)
  const search = createSearch(searchSpace(compiled, forward), { seed })
  return {
    run: search.run,
    best: () => {
      forward.decode(search.best.list)
      return { schedule: forward.schedule(), score: scoreOf(forward), schedules: search.used }
    },
  }
}

const searchSpace = (compiled: Compiled, forward: Generator): SearchSpace => {
  const turned = mirror(compiled.problem)
  return {
    forward,
    backward: turned === null ? null : createGenerator(compile(turned)),
    predecessors: compiled.predecessors,
    successors: compiled.successors,
    groups: compiled.repair,
    priorities: workshopPriorities(compiled),
    bound: null,
  }
}

const scoreOf = ({ score }: Generator): Score => ({
  lateness: score[0] as number,
  moves: score[1] as number,
  end: score[2] as number,
  changes: score[3] as number,
})
