import type { Problem } from '../../domain/plan/problem.ts'
import { type Choice, crewsOf, finishOf, type Open, ticksTo, type Time } from './exact-time.ts'
import type { LinearModel, Term } from './linear-model.ts'

export interface MoveChoice {
  readonly car: number
  readonly from: number | null
  readonly to: number
  readonly start: number
  readonly finish: number
  readonly column: number
  /** The crews that could do it; one of these columns is 1 when the move is made. */
  readonly crews: readonly { readonly crew: readonly number[]; readonly column: number }[]
}

/** By car: waiting in a place during a tick, passing through a place at a tick, and moves. */
export interface Flow {
  readonly waiting: (car: number, bay: number, tick: number) => readonly Term[]
  readonly passing: (car: number, bay: number, tick: number) => readonly Term[]
  readonly moves: readonly MoveChoice[]
  /** Moves of a car that are under way during a tick. */
  readonly moving: (car: number, tick: number) => readonly MoveChoice[]
}

const kindsOf = ({ activities }: Problem, of: number): readonly number[] =>
  activities.flatMap(({ car, bayKind }) => (car === of && bayKind !== null ? [bayKind] : []))

/** Where a car has any reason to be: where it stands, where work on it can be done, and yards. */
function placesOf(problem: Problem, car: number): readonly number[] {
  const kinds = kindsOf(problem, car)
  return problem.bays.flatMap((bay, index) =>
    bay.storage || problem.cars[car]?.bay === index || bay.kinds.some((kind) => kinds.includes(kind))
      ? [index]
      : [],
  )
}

/**
 * Each car that has work in bays is one unit that flows from where it is, through stays and moves, to where it leaves.
 * Where moves are whole, so are stays as far as work needs them; only when a shell leaves may come out in fractions.
 */
export function carFlow(problem: Problem, open: Open, model: LinearModel): Flow {
  const { cars, horizon } = problem
  const bound = cars.flatMap((_, car) => (kindsOf(problem, car).length > 0 ? [car] : []))
  const waits = new Map(
    bound.flatMap((car) =>
      placesOf(problem, car).flatMap((bay) =>
        ticksTo(horizon - 1).map((tick) => [`${car} ${bay} ${tick}`, model.column(false, 1)] as const),
      ),
    ),
  )
  const waiting = (car: number, bay: number, tick: number): readonly Term[] => {
    const column = waits.get(`${car} ${bay} ${tick}`)
    return column === undefined ? [] : [[1, column]]
  }
  const moves = bound.flatMap((car) => moveChoices(problem, open, model, car))
  const arriving = Map.groupBy(moves, ({ car, to, finish }) => `${car} ${to} ${finish}`)
  const leaving = Map.groupBy(moves, ({ car, from, start }) => `${car} ${from} ${start}`)
  const columnsOf = (choices: readonly MoveChoice[] | undefined, factor: number): readonly Term[] =>
    (choices ?? []).map(({ column }): Term => [factor, column])
  const passing = (car: number, bay: number, tick: number): readonly Term[] => [
    ...waiting(car, bay, tick - 1),
    ...columnsOf(arriving.get(`${car} ${bay} ${tick}`), 1),
  ]
  for (const car of bound) {
    const gone = placesOf(problem, car).flatMap((bay) =>
      ticksTo(horizon).map((tick): Term => {
        const leave = model.column(false, 1)
        const given = cars[car]?.bay === bay && tick === 0 ? 1 : 0
        const onward = [
          ...waiting(car, bay, tick),
          ...columnsOf(leaving.get(`${car} ${bay} ${tick}`), 1),
          [1, leave] as const,
        ]
        model.row(given, [...onward, ...negative(passing(car, bay, tick))], given)
        return [1, leave]
      }),
    )
    model.row(1, gone, 1)
  }
  const byCar = Map.groupBy(moves, ({ car }) => car)
  const moving = (car: number, tick: number): readonly MoveChoice[] =>
    (byCar.get(car) ?? []).filter(({ start, finish }) => start <= tick && tick < finish)
  return { waiting, passing, moves, moving }
}

const negative = (terms: readonly Term[]): readonly Term[] =>
  terms.map(([factor, column]) => [-factor, column])

function moveChoices(problem: Problem, open: Open, model: LinearModel, car: number): readonly MoveChoice[] {
  const { bay: stands, arrives } = problem.cars[car]!
  const { work, people, able } = problem.move
  const crews = crewsOf(people === 0 ? null : { people, able, named: [] })
  const places = placesOf(problem, car)
  const froms = [...places, ...(stands === null ? [null] : [])]
  return ticksTo(problem.horizon).flatMap((start) => {
    const done = crews.flatMap((crew) => {
      const finish = finishOf(open, { work, watch: 0 }, crew, start, problem.horizon)
      return finish === null ? [] : [{ crew, finish, column: model.column(true, 1) }]
    })
    return [...Map.groupBy(done, ({ finish }) => finish)].flatMap(([finish, able]) => {
      const own = froms.flatMap((from) =>
        places
          .filter((to) => to !== from && (from !== null || start >= arrives))
          .map((to): MoveChoice => ({
            car,
            from,
            to,
            start,
            finish,
            column: model.column(true, 1),
            crews: able,
          })),
      )
      const done = able.map(({ column }): Term => [-1, column])
      model.row(0, [...own.map(({ column }): Term => [1, column]), ...done], 0)
      return own
    })
  })
}

/** Work runs, tick by tick, only while its car stands in a bay of the kind; work of no length when it is there. */
export function placeRows(
  { cars, activities, bays, horizon }: Problem,
  model: LinearModel,
  choices: readonly Choice[],
  { started, finished }: Time,
  { waiting, passing }: Flow,
): void {
  activities.forEach(({ car, bayKind, work }, activity) => {
    if (car === null || bayKind === null) return
    const fit = bays.flatMap(({ kinds, storage }, bay) => (!storage && kinds.includes(bayKind) ? [bay] : []))
    const isThereAtFirst = fit.some((bay) => cars[car]?.bay === bay)
    if (work === 0)
      for (const { column, start } of choices.filter((each) => each.activity === activity)) {
        const here = fit.flatMap((bay) => passing(car, bay, start))
        if (start > 0 || !isThereAtFirst) model.row(-Infinity, [[1, column], ...negative(here)], 0)
      }
    else
      for (const tick of ticksTo(horizon - 1)) {
        const here = fit.flatMap((bay) => waiting(car, bay, tick))
        const running: readonly Term[] = [
          [1, started[activity]![tick]!],
          [-1, finished[activity]![tick]!],
        ]
        model.row(-Infinity, [...running, ...negative(here)], 0)
      }
  })
}

/** Shells that wait or work in a bay, and those on their way into it or out of it; others stay out of a booked bay. */
export function bayRows({ bays, cars, horizon }: Problem, model: LinearModel, flow: Flow): void {
  const inBay = (car: number, bay: number, tick: number): readonly Term[] => [
    ...flow.waiting(car, bay, tick),
    ...flow
      .moving(car, tick)
      .filter(({ from, to }) => from === bay || to === bay)
      .map(({ column }): Term => [1, column]),
  ]
  bays.forEach(({ places }, bay) => {
    for (const tick of ticksTo(horizon - 1)) {
      const all = [...cars.keys()].flatMap((car) => inBay(car, bay, tick))
      if (all.length > places) model.row(0, all, places)
    }
  })
  cars.forEach(({ bookings }, booked) => {
    for (const { bay, from, to } of bookings)
      for (const tick of ticksTo(horizon - 1).slice(from, to)) {
        const others = [...cars.keys()]
          .filter((car) => car !== booked)
          .flatMap((car) => inBay(car, bay, tick))
        if (others.length > 0) model.row(0, others, bays[bay]!.places - 1)
      }
  })
}

/**
 * A booked car's next stay in a bay that is fit for what its booking is fit for is the booked one, and not before it.
 * Gives a column a booking: 1 when the car is not there by the end of the first day on which anybody works.
 */
export function bookingRows(
  problem: Problem,
  model: LinearModel,
  open: Open,
  { moves }: Flow,
): readonly Term[] {
  const { cars, bays } = problem
  return cars.flatMap(({ bay, bookings }, car): readonly Term[] => {
    const [booking, ...more] = bookings
    if (booking === undefined) return []
    if (more.length > 0 || bay !== null)
      throw new RangeError('The exact model knows one booking a car, of a car that is not here yet.')
    const own = moves.filter((each) => each.car === car)
    const booked = own.filter(({ to }) => to === booking.bay)
    const isRival = ({ to }: MoveChoice): boolean =>
      to !== booking.bay &&
      !bays[to]!.storage &&
      bays[to]!.kinds.some((kind) => bays[booking.bay]!.kinds.includes(kind))
    for (const { column, start } of booked) if (start < booking.from) model.row(0, [[1, column]], 0)
    for (const each of own.filter(isRival)) {
      const before = booked.filter(({ start }) => start < each.start).map(({ column }): Term => [-1, column])
      model.row(-Infinity, [[1, each.column], ...before], 0)
    }
    const missed = model.column(true, 1)
    const last = Math.min(booking.to, endOfFirstDay(problem, open, booking.from))
    const inTime = booked.filter(({ start }) => start < last).map(({ column }): Term => [1, column])
    model.row(1, [[1, missed], ...inTime], Infinity)
    return [[1, missed]]
  })
}

function endOfFirstDay({ people, midnights, horizon }: Problem, open: Open, tick: number): number {
  const isAnybody = (at: number): boolean => people.some((_, person) => open([person], 0, at))
  let first = tick
  while (first < horizon && !isAnybody(first)) first += 1
  return midnights.find((midnight) => midnight > first) ?? horizon
}
