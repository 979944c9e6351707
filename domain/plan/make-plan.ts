import { buildProblem, type BuiltProblem } from './build-problem.ts'
import { checkSchedule } from './check.ts'
import { explainStarts } from './explain.ts'
import { finishLikelihood } from './likelihood.ts'
import { durationsOf } from './likelihood/durations.ts'
import { schedulesOf, type PlanBudget } from './plan-budget.ts'
import { planFromSchedule } from './plan-from-schedule.ts'
import type { PlanInput } from './plan-input.ts'
import type { Plan } from './plan.ts'
import { createSolver, type Solution } from './solve/solve.ts'

export type PlanStep =
  /** Part of the search is done. */
  | { readonly kind: 'slice' }
  /**
   * A plan that has passed the check. The first one is there early, without likelihoods; the final one is the best that
   * was found.
   */
  | { readonly kind: 'plan'; readonly plan: Plan; readonly isFinal: boolean }
  /** The solver broke a rule of the problem: a defect. There is no plan. */
  | { readonly kind: 'defect'; readonly words: string }

/** Plans a workshop in slices, so that the caller can look up between them. */
export function* makePlan(input: PlanInput, budget: PlanBudget): Generator<PlanStep, void, undefined> {
  const built = buildProblem(input)
  const size = built.problem.activities.length
  const schedules = schedulesOf(budget.placements, size)
  const slice = schedulesOf(budget.slice, size)
  const solver = createSolver(built.problem, { seed: budget.seed, schedules })
  const first = solutionToStep(built, solver.best(), input, null)
  yield first
  if (first.kind === 'defect') return
  for (let left = schedules; left > 0; left -= slice) {
    solver.run(slice)
    yield { kind: 'slice' }
  }
  yield solutionToStep(built, solver.best(), input, budget)
}

/** @param samples of the likelihoods, which make the plan the final one; null for none yet */
function solutionToStep(
  built: BuiltProblem,
  { schedule, score }: Solution,
  { now, hidden }: PlanInput,
  samples: Pick<PlanBudget, 'samples' | 'seed'> | null,
): PlanStep {
  const { problem } = built
  const broken = checkSchedule(problem, schedule)
  if (broken.length > 0)
    return {
      kind: 'defect',
      words: `The planner broke its own rules, so its plan is not shown: ${broken.join(' ')}`,
    }
  const likelihood = samples && finishLikelihood(problem, schedule, durationsOf(built, hidden), samples)
  const starts = explainStarts(built, schedule)
  const plan = planFromSchedule(built, schedule, { starts, likelihood, score, now })
  return { kind: 'plan', plan, isFinal: samples !== null }
}

/** The final plan, without looking up. @throws Error for a defect of the planner */
export function makePlanAtOnce(input: PlanInput, budget: PlanBudget): Plan {
  for (const step of makePlan(input, budget)) {
    if (step.kind === 'defect') throw new Error(step.words)
    if (step.kind === 'plan' && step.isFinal) return step.plan
  }
  throw new Error('The planner ended without a plan.')
}
