import type { CarState } from '../../domain/car.ts'
import { buildProblem, type BuiltProblem } from '../../domain/plan/build-problem.ts'
import { checkSchedule } from '../../domain/plan/check.ts'
import { planFromSchedule } from '../../domain/plan/plan-from-schedule.ts'
import type { PlanInput } from '../../domain/plan/plan-input.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { solve } from '../../domain/plan/solve/solve.ts'
import { buildWorkshop, nameOf } from './workshop-builder.ts'
import { scoreSchedule } from './score-schedule.ts'

/** Mon 23 Nov 2026, 08:00 UTC, when work begins at Harrow Lane. */
export const MONDAY = Date.parse('2026-11-23T08:00:00Z')

/** Harrow Lane with these cars on that Monday, and no plan in force. */
export const planInput = (cars: readonly CarState[], over: Partial<PlanInput> = {}): PlanInput => ({
  workshop: buildWorkshop(),
  cars,
  nameOf,
  now: MONDAY,
  inForce: null,
  hidden: new Map(),
  ...over,
})

/** The number of an activity by its name; -1 when it was left out. */
export const activityOf = ({ work }: BuiltProblem, name: string): number =>
  work.findIndex((each) => each.name === name)

/** 'opened of Sill before fabricated of Sill' as pairs of names, sorted. */
export const linkNames = ({ problem, work }: BuiltProblem): readonly string[] =>
  problem.links.map(({ before, after }) => `${work[before]?.name} -> ${work[after]?.name}`).toSorted()

/** Facts to a plan, through the check; throws when the plan breaks a rule of its problem. */
export function planOf(input: PlanInput, schedules = 40): Plan {
  const built = buildProblem(input)
  const { schedule } = solve(built.problem, { seed: 1, schedules })
  const broken = checkSchedule(built.problem, schedule)
  if (broken.length > 0) throw new Error(broken.join(' '))
  return planFromSchedule(built, schedule, {
    starts: built.work.map(() => ({ reason: 'now', words: '' })),
    likelihood: null,
    score: scoreSchedule(built.problem, schedule),
    now: input.now,
  })
}
