import process from 'node:process'
import { checkSchedule } from '../../domain/plan/check.ts'
import { finishLikelihood } from '../../domain/plan/likelihood.ts'
import { QUICK_BUDGET, schedulesOf, USUAL_BUDGET, type PlanBudget } from '../../domain/plan/plan-budget.ts'
import { TICK_MINUTES, type Problem } from '../../domain/plan/problem.ts'
import type { Schedule } from '../../domain/plan/schedule.ts'
import { createSolver, solve, type Solution } from '../../domain/plan/solve/solve.ts'
import { workshopProblem } from './workshop-problem.ts'

const CARS = 20
const SEED = 1
const CURVE = [5, 10, 20, 40, 80]
/** Of gates, a round: as much for every size, so that none is measured colder than another. */
const CURVE_PLACEMENTS = 102_400
const CURVE_ROUNDS = 5

export interface WorkshopFigures {
  readonly cars: number
  readonly activities: number
  /** Until the first plan is there and checked. Likelihoods are counted by themselves. */
  readonly firstPlanMs: number
  /** Until the improved plan is there and checked, the first one's time included. */
  readonly improvedPlanMs: number
  /** Hours late, each car's times its weight. */
  readonly firstLatenessHours: number
  readonly improvedLatenessHours: number
  /** From the plan in force after one change, until a plan is there and checked. */
  readonly replanMs: number
  readonly replanLatenessHours: number
  readonly likelihoodMs: number
  readonly likelihoodSamples: number
  readonly curve: readonly CurvePoint[]
}

/** Processor time of one schedule, from its list to its place in the search, as the workshop grows: the least of five rounds. */
interface CurvePoint {
  readonly cars: number
  /** n below: the gates that a schedule places, 64 a car. People and bays grow with them. */
  readonly activities: number
  readonly scheduleMs: number
  /** Per activity and doubling of their number: level or falling when the cost grows no worse than n log n. */
  readonly nsPerNLogN: number
}

/** Times the planner on a made-up workshop of 20 cars, 160 repairs, 1,280 gates, 8 bays and 12 people over half a year. */
export function benchWorkshop(): WorkshopFigures {
  // Once round before it counts: the host plans many times, with code that is compiled already.
  plan(workshopProblem({ cars: 5, seed: SEED + 1 }), QUICK_BUDGET)
  const problem = workshopProblem({ cars: CARS, seed: SEED })
  const begun = performance.now()
  const schedules = schedulesOf(USUAL_BUDGET.placements, problem.activities.length)
  const solver = createSolver(problem, { seed: SEED, schedules })
  const first = checked(problem, solver.best())
  const firstPlanMs = performance.now() - begun
  solver.run(schedules)
  const improved = checked(problem, solver.best())
  const improvedPlanMs = performance.now() - begun
  const [, likelihoodMs] = timed(() => likelihood(problem, improved.schedule))
  const changed = withOneChange(problem, improved.schedule)
  const [replanned, replanMs] = timed(() => plan(changed, QUICK_BUDGET))
  return {
    cars: CARS,
    activities: problem.activities.length,
    firstPlanMs: rounded(firstPlanMs),
    improvedPlanMs: rounded(improvedPlanMs),
    firstLatenessHours: latenessHours(first),
    improvedLatenessHours: latenessHours(improved),
    replanMs: rounded(replanMs),
    replanLatenessHours: latenessHours(replanned),
    likelihoodMs: rounded(likelihoodMs),
    likelihoodSamples: USUAL_BUDGET.samples,
    curve: CURVE.map(curvePoint),
  }
}

function plan(problem: Problem, { placements }: PlanBudget): Solution {
  const schedules = schedulesOf(placements, problem.activities.length)
  return checked(problem, solve(problem, { seed: SEED, schedules }))
}

function checked(problem: Problem, solution: Solution): Solution {
  const [broken] = checkSchedule(problem, solution.schedule)
  if (broken !== undefined) throw new Error(`The plan breaks a rule: ${broken}`)
  return solution
}

/** The plan is in force, and a gate in the middle of it turns out to take three times its hours. */
function withOneChange(problem: Problem, { placed }: Schedule): Problem {
  const changed = Math.floor(problem.activities.length / 2)
  return {
    ...problem,
    activities: problem.activities.map((activity, index) => ({
      ...activity,
      work: index === changed ? activity.work * 3 : activity.work,
      inForce: placed[index] ?? null,
    })),
  }
}

/** Each gate takes between half and double what is planned for it. */
function likelihood(problem: Problem, schedule: Schedule): void {
  const durations = problem.activities.map(({ work }) => ({
    shortest: 0.5 * work,
    likely: 0.875 * work,
    longest: 2 * work,
    hidden: null,
  }))
  finishLikelihood(problem, schedule, durations, { samples: USUAL_BUDGET.samples, seed: SEED })
}

function curvePoint(cars: number): CurvePoint {
  const problem = workshopProblem({ cars, seed: SEED })
  const activities = problem.activities.length
  const schedules = schedulesOf(CURVE_PLACEMENTS, activities)
  const solver = createSolver(problem, { seed: SEED, schedules: (1 + CURVE_ROUNDS) * schedules })
  // The first lists are made by rules, which comes once. What else the machine does only ever adds to a round.
  solver.run(schedules)
  const rounds = Array.from({ length: CURVE_ROUNDS }, () => processorMs(() => solver.run(schedules)))
  const scheduleMs = Math.min(...rounds) / schedules
  const nsPerNLogN = (scheduleMs * 1e6) / (activities * Math.log2(activities))
  return { cars, activities, scheduleMs: rounded(scheduleMs, 3), nsPerNLogN: rounded(nsPerNLogN, 0) }
}

function timed<T>(work: () => T): readonly [result: T, ms: number] {
  const begun = performance.now()
  const result = work()
  return [result, performance.now() - begun]
}

/** Of this program alone, however much others use the machine. */
function processorMs(work: () => void): number {
  const begun = process.cpuUsage()
  work()
  const { user, system } = process.cpuUsage(begun)
  return (user + system) / 1000
}

const latenessHours = ({ score }: Solution): number => rounded((score.lateness * TICK_MINUTES) / 60)

const rounded = (value: number, decimals = 1): number => Number(value.toFixed(decimals))
