import { checkSchedule } from '../../domain/plan/check.ts'
import type { Activity, Problem } from '../../domain/plan/problem.ts'
import type { Move, Placement, Schedule, Stay } from '../../domain/plan/schedule.ts'
import { type Figures, figuresOf, isBetter } from './plan-figures.ts'
import { activity } from './plan-problem.ts'

/**
 * The best score of a tiny problem, found by going through every plan in which each car is moved at most `mostMoves`
 * times; null when none of them is feasible, 'too many' when there are more than `mostPlans` to go through. The check
 * decides what is feasible; besides, a booked car goes to its booked bay first, and not before the booking.
 */
export function bestOfEveryPlan(
  problem: Problem,
  { mostMoves, mostPlans }: { readonly mostMoves: number; readonly mostPlans: number },
): Figures | null | 'too many' {
  const places = problem.activities.map((each) => placementsOf(problem, each))
  const waysByCar = problem.cars.map((_, car) =>
    waysOf(problem, car, mostMoves).filter((way) => isBookingKept(problem, car, way)),
  )
  if ([...places, ...waysByCar].reduce((product, { length }) => product * length, 1) > mostPlans)
    return 'too many'
  const placements = combinations(places)
  const ways = combinations(waysByCar)
  let best: Figures | null = null
  for (const placed of placements)
    for (const moves of ways) {
      const schedule = toSchedule(problem, placed, moves.flat())
      const figures = figuresOf(problem, schedule)
      if ((best === null || isBetter(figures, best)) && checkSchedule(problem, schedule).length === 0)
        best = figures
    }
  return best
}

/** Where the work alone, without its car, could lie. */
function placementsOf(problem: Problem, { work, earliest, watch, crew }: Activity): readonly Placement[] {
  const alone: Problem = {
    ...problem,
    cars: [],
    activities: [activity({ work, earliest, watch, crew })],
    links: [],
    stands: [],
    apart: [],
    spans: [],
  }
  const ticks = Array.from({ length: problem.horizon + 1 }, (_, tick) => tick)
  return crewsOf(crew).flatMap((people) =>
    ticks.flatMap((start) =>
      ticks
        .slice(start)
        .map((finish): Placement => ({ start, finish, crew: people, bay: null }))
        .filter((each) => checkSchedule(alone, { placed: [each], stays: [], moves: [] }).length === 0),
    ),
  )
}

/** All subsets of the right size; the check leaves those that hold the named. */
const crewsOf = (crew: Activity['crew']): readonly (readonly number[])[] =>
  crew === null
    ? [[]]
    : crew.able
        .reduce<readonly (readonly number[])[]>(
          (sets, person) => [...sets, ...sets.map((set) => [...set, person])],
          [[]],
        )
        .filter((set) => set.length === crew.people)

/** No move, one, and so on; a move is work like any other. */
function waysOf(problem: Problem, car: number, mostMoves: number): readonly (readonly Move[])[] {
  const { work, people, able } = problem.move
  const times = placementsOf(
    problem,
    activity({ work, crew: people === 0 ? null : { people, able, named: [] } }),
  )
  const onward = (way: readonly Move[]): readonly (readonly Move[])[] => {
    if (way.length === mostMoves) return [way]
    const last = way.at(-1)
    const from = last === undefined ? problem.cars[car]!.bay : last.to
    const next = times.flatMap(({ start, finish, crew }) =>
      start < (last?.finish ?? 0)
        ? []
        : [...problem.bays.keys()].map((to): Move => ({ car, from, to, start, finish, crew })),
    )
    return [way, ...next.flatMap((move) => onward([...way, move]))]
  }
  return onward([])
}

/** Bays of its kind count; a yard is no way round the booking. */
function isBookingKept({ cars, bays }: Problem, car: number, way: readonly Move[]): boolean {
  const [booking] = cars[car]!.bookings
  if (booking === undefined) return true
  const isFit = (bay: number): boolean =>
    !bays[bay]!.storage && bays[bay]!.kinds.some((kind) => bays[booking.bay]!.kinds.includes(kind))
  const first = way.find(({ to }) => isFit(to))
  return first === undefined || (first.to === booking.bay && first.start >= booking.from)
}

const combinations = <T>(options: readonly (readonly T[])[]): readonly (readonly T[])[] =>
  options.reduce<readonly (readonly T[])[]>(
    (found, own) => found.flatMap((each) => own.map((option) => [...each, option])),
    [[]],
  )

/** Stays follow from moves and from the last work in a bay; work is done where the car then stands. */
function toSchedule(problem: Problem, placed: readonly Placement[], moves: readonly Move[]): Schedule {
  const { cars, activities } = problem
  const stays = cars.flatMap(({ bay: first }, car): readonly Stay[] => {
    const own = moves.filter((move) => move.car === car)
    const inBays = placed.filter((_, at) => activities[at]!.car === car && activities[at]!.bayKind !== null)
    const end = Math.max(0, ...inBays.map(({ finish }) => finish))
    const begun = [
      ...(first === null ? [] : [{ bay: first, from: 0 }]),
      ...own.map(({ to, start }) => ({ bay: to, from: start })),
    ]
    const out = first === null ? own.slice(1) : own
    return begun.map(({ bay, from }, at) => ({ car, bay, from, to: out[at]?.finish ?? end }))
  })
  const bayAt = (car: number, { start, finish }: Placement): number | null => {
    const isFreeOf = (move: Move): boolean => move.finish <= start || move.start >= finish
    const own = moves.filter((move) => move.car === car)
    const last = own.findLast((move) => move.finish <= start)
    return own.every(isFreeOf) ? (last?.to ?? cars[car]!.bay) : null
  }
  return {
    placed: placed.map((each, at) => {
      const { car, bayKind } = activities[at]!
      return { ...each, bay: car === null || bayKind === null ? null : bayAt(car, each) }
    }),
    stays,
    moves,
  }
}
