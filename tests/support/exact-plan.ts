import type { Problem } from '../../domain/plan/problem.ts'
import type { Move, Placement, Schedule, Stay } from '../../domain/plan/schedule.ts'
import { formulate } from './exact-model.ts'
import { createLinearModel } from './linear-model.ts'
import type { Figures } from './plan-figures.ts'

/** A plan with all work placed whose missed bookings, lateness, moves and end, in this order, no other such plan betters. */
export interface ExactPlan {
  readonly schedule: Schedule
  /** As proven by the model; the schedule is reckoned apart. */
  readonly figures: Figures
}

/**
 * Proves the best plan of a small problem with HiGHS. Null when not all work can be placed, 'unproven' when `nodes`
 * branches were too few. It honours all rules but pinned days, which are wishes, and 'first', which is for the solver.
 */
export function exactPlan(problem: Problem, nodes = 2000): ExactPlan | null | 'unproven' {
  const model = createLinearModel()
  const { choices, moves, objectives } = formulate(problem, model)
  const found = model.minimise(objectives, nodes)
  if (found === null || found === 'unproven') return found
  const isChosen = ({ column }: { readonly column: number }): boolean => found.values[column]! > 0.5
  const made = moves.filter(isChosen).map((move): Move => {
    const crew = move.crews.find(isChosen)?.crew ?? []
    return { car: move.car, from: move.from, to: move.to, start: move.start, finish: move.finish, crew }
  })
  const chosen = problem.activities.map((_, activity) =>
    choices.find((each) => each.activity === activity && isChosen(each))!,
  )
  const stays = problem.cars.flatMap((_, car) => staysOf(problem, car, chosen, made))
  const placed = chosen.map(({ activity, start, finish, crew }): Placement => {
    const { car, bayKind } = problem.activities[activity]!
    const bay =
      car === null || bayKind === null ? null : bayAt(problem, stays, made, { car, bayKind, start, finish })
    return { start, finish, crew, bay }
  })
  const [missed, lateness, count, end] = found.least as [number, number, number, number]
  return { schedule: { placed, stays, moves: made }, figures: [missed, lateness, count, end] }
}

/** From move to move, and to the end of the last work in a bay. */
function staysOf(
  { cars, activities }: Problem,
  car: number,
  chosen: readonly { readonly activity: number; readonly finish: number }[],
  made: readonly Move[],
): readonly Stay[] {
  const own = made.filter((move) => move.car === car).toSorted((a, b) => a.start - b.start)
  const inBays = chosen.filter(
    ({ activity }) => activities[activity]!.car === car && activities[activity]!.bayKind !== null,
  )
  if (inBays.length === 0) return []
  const last = Math.max(...inBays.map(({ finish }) => finish))
  const first = cars[car]!.bay
  const begun = [
    ...(first === null ? [] : [{ bay: first, from: 0 }]),
    ...own.map(({ to, start }) => ({ bay: to, from: start })),
  ]
  const ends = [...(first === null ? own.slice(1) : own).map(({ finish }) => finish), last]
  return begun.map(({ bay, from }, at) => ({ car, bay, from, to: ends[at]! }))
}

interface Work {
  readonly car: number
  readonly bayKind: number
  readonly start: number
  readonly finish: number
}

const bayAt = (
  { bays }: Problem,
  stays: readonly Stay[],
  made: readonly Move[],
  { car, bayKind, start, finish }: Work,
): number | null => {
  const here = stays.find((stay) => {
    const into = made.find((move) => move.car === car && move.start === stay.from && move.to === stay.bay)
    const isThere = (into?.finish ?? stay.from) <= start && finish <= stay.to
    return stay.car === car && isThere && bays[stay.bay]!.kinds.includes(bayKind)
  })
  return here?.bay ?? null
}
