import type { Activity, Crew, Problem } from '../problem.ts'
import type { Move, Placement, Schedule } from '../schedule.ts'
import { floorPairs } from './floor-order.ts'
import { resourcePairs, standPairs } from './held-order.ts'
import type { Pair } from './pair.ts'

/** What the plan does in which order, without its times: activities first, by their own numbers, then the moves. */
export interface FrozenOrder {
  /** Null for what is not placed. */
  readonly items: readonly (FrozenItem | null)[]
  /** By item: what it waits for, people apart. A lag is in ticks of the clock. */
  readonly before: readonly (readonly Before[])[]
  /** Every placed item in the order of the planned starts, after what it waits for. */
  readonly order: readonly number[]
}

export interface FrozenItem {
  readonly placement: Pick<Placement, 'start' | 'finish' | 'crew'>
  readonly work: number
  readonly watch: number
  /** Null when it needs nobody. */
  readonly crew: Crew | null
  /** Not before this tick: dates, arrivals and bookings. */
  readonly from: number
}

export interface Before {
  readonly item: number
  readonly lag: number
}

/**
 * The plan's order as precedences: the links, which shell has each bay next, and the turns of open sides, jigs and dollies.
 * Every activity keeps its bay. That a bay is booked for another ends no stay: work that runs late stays where it is.
 */
export function freezeOrder(problem: Problem, schedule: Schedule): FrozenOrder {
  const items = [
    ...problem.activities.map((activity, index) => activityItem(activity, schedule.placed[index] ?? null)),
    ...schedule.moves.map((move) => moveItem(problem, move)),
  ]
  return inOrder(items, [
    ...problem.links,
    ...floorPairs(problem, schedule),
    ...standPairs(problem, schedule),
    ...resourcePairs(problem, schedule),
  ])
}

function activityItem(
  { work, watch, earliest, crew }: Activity,
  placement: Placement | null,
): FrozenItem | null {
  if (placement === null) return null
  return { placement, work, watch, crew: work === 0 ? null : crew, from: Math.max(0, earliest) }
}

/** A move waits for its own booking to begin and for those of others before it to end. */
function moveItem({ move: { work, people, able }, cars }: Problem, move: Move): FrozenItem {
  const arrives = move.from === null ? (cars[move.car]?.arrives ?? 0) : 0
  const bookings = cars.flatMap((car, index) =>
    car.bookings
      .filter(({ bay }) => bay === move.to)
      .map(({ from, to }) => (index === move.car && move.start < to ? from : to)),
  )
  const from = Math.max(0, arrives, ...bookings.filter((tick) => tick <= move.start))
  const crew = people === 0 || work === 0 ? null : { people, able, named: [] }
  return { placement: move, work, watch: 0, crew, from }
}

function inOrder(items: readonly (FrozenItem | null)[], pairs: readonly Pair[]): FrozenOrder {
  const before = items.map(() => new Map<number, number>())
  for (const { before: one, after: other, lag = 0 } of pairs) {
    if ((items[one] ?? null) === null || (items[other] ?? null) === null) continue
    before[other]?.set(one, Math.max(lag, before[other].get(one) ?? 0))
  }
  const order = topological(items, before)
  const ranks = new Int32Array(items.length)
  order.forEach((item, rank) => (ranks[item] = rank))
  return {
    items,
    order,
    before: before.map((own, item) =>
      [...own]
        .filter(([other]) => (ranks[other] as number) < (ranks[item] as number))
        .map(([other, lag]) => ({ item: other, lag })),
    ),
  }
}

/**
 * By planned start; what takes no time still goes before what waits for it. Shells that change places in no time wait for
 * each other: of such a circle one simply goes first.
 */
function topological(
  items: readonly (FrozenItem | null)[],
  before: readonly ReadonlyMap<number, number>[],
): readonly number[] {
  const order = new Set<number>()
  const entered = new Set<number>()
  const place = (item: number): void => {
    if (entered.has(item)) return
    entered.add(item)
    const start = startOf(items, item)
    // What begins earlier stands there already.
    for (const other of before[item]?.keys() ?? []) if (startOf(items, other) === start) place(other)
    order.add(item)
  }
  const placed = [...items.keys()].filter((item) => items[item] !== null)
  for (const item of placed.toSorted((a, b) => startOf(items, a) - startOf(items, b))) place(item)
  return [...order]
}

const startOf = (items: readonly (FrozenItem | null)[], item: number): number =>
  items[item]?.placement.start ?? 0
