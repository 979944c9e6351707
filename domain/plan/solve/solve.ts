import { criticalPath } from '../critical-path.ts'
import type { Problem } from '../problem.ts'
import type { Schedule, Score } from '../schedule.ts'
import { copyChoices } from './choices.ts'
import { compile, type Compiled } from './compile.ts'
import type { SearchSpace } from './decoder.ts'
import { createGenerator, type Generator } from './generate.ts'
import { mirror } from './mirror.ts'
import { createPlainGenerator } from './plain-generator.ts'
import { workshopPriorities } from './priorities.ts'
import { NOT_KEPT } from './score.ts'
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
  const mirrored = mirror(problem)
  const forward = mirrored === null ? createGenerator(compiled) : createPlainGenerator(compiled)
  const space = searchSpace(compiled, forward, mirrored)
  const search = createSearch(space, { seed, schedules })
  return {
    run: (more) => {
      // With nothing to plan there is nothing to search.
      if (compiled.size > 0) search.run(more)
    },
    best: () => {
      if (compiled.size > 0 && search.used() === 0) search.run(space.priorities.length)
      copyChoices(search.best.choices, forward.choices)
      forward.decode(search.best.list)
      return { schedule: forward.schedule(), score: scoreOf(forward), schedules: search.used() }
    },
  }
}

const searchSpace = (compiled: Compiled, forward: Generator, mirrored: Problem | null): SearchSpace => ({
  problem: compiled.problem,
  size: compiled.size,
  forward,
  backward: mirrored === null ? null : createPlainGenerator(compile(mirrored)),
  predecessors: compiled.predecessors,
  successors: compiled.successors,
  groups: compiled.repair,
  cars: compiled.car,
  priorities: workshopPriorities(compiled),
  bound: [0, 0, criticalPath(compiled.problem.activities, compiled.problem.links).end, 0],
})

const scoreOf = ({ score }: Generator): Score => ({
  lateness: (score[0] as number) % NOT_KEPT,
  moves: score[1] as number,
  end: score[2] as number,
  changes: score[3] as number,
})
