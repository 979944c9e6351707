import type { Problem } from '../../domain/plan/problem.ts'
import { bayRows, bookingRows, carFlow, type Flow, type MoveChoice, placeRows } from './exact-floor.ts'
import { type Choice, crewsOf, finishOf, type Open, openTicks, ticksTo, type Time } from './exact-time.ts'
import type { LinearModel, Term } from './linear-model.ts'

/**
 * A small workshop problem as a time-indexed model (Pritsker, Watters & Wolfe 1969, with the disaggregated order rows of
 * Christofides, Alvarez-Valdes & Tamarit 1987; both from memory): a binary for each activity, start and crew; each car
 * a unit of flow through places and ticks. Written from the rules of the problem, it shares nothing with the solver or
 * the check. A move must take at least one tick, and a stand be opened before it is closed.
 */
export interface ExactModel {
  readonly choices: readonly Choice[]
  readonly moves: readonly MoveChoice[]
  /** Bookings missed, weighted lateness, number of moves, end. */
  readonly objectives: readonly (readonly Term[])[]
}

export function formulate(problem: Problem, model: LinearModel): ExactModel {
  if (problem.move.work < 1) throw new RangeError('The exact model needs moves of one tick or more.')
  const open = openTicks(problem)
  const choices = activityChoices(problem, open, model)
  const started = problem.activities.map((_, at) => steps(model, problem, choices, at, (each) => each.start))
  const finished = problem.activities.map((_, at) =>
    steps(model, problem, choices, at, (each) => each.finish),
  )
  const time: Time = { started, finished }
  const flow = carFlow(problem, open, model)
  orderRows(problem, model, time)
  placeRows(problem, model, choices, time, flow)
  bayRows(problem, model, flow)
  peopleRows(problem, model, choices, flow.moves)
  standRows(problem, model, time, flow)
  resourceRows(problem, model, time)
  const missed = bookingRows(problem, model, open, flow)
  return {
    choices,
    moves: flow.moves,
    objectives: [missed, ...scoreRows(problem, model, choices, flow.moves)],
  }
}

function activityChoices(problem: Problem, open: Open, model: LinearModel): readonly Choice[] {
  const { activities, horizon } = problem
  const possible = activities.map((each) =>
    crewsOf(each.crew).flatMap((crew) =>
      ticksTo(horizon).flatMap((start) => {
        const finish = finishOf(open, each, crew, start, horizon)
        return finish === null || start < each.earliest ? [] : [{ start, finish, crew }]
      }),
    ),
  )
  return withinOrder(problem, possible).flatMap((starts, activity) => {
    const own = starts.map((each): Choice => ({ ...each, activity, column: model.column(true, 1) }))
    model.row(
      1,
      own.map(({ column }) => [1, column]),
      1,
    )
    return own
  })
}

type Start = Omit<Choice, 'activity' | 'column'>

/** Leaves out what cannot be: starts before all that must come first could be done, and those too late for what follows. */
function withinOrder(
  { links }: Problem,
  possible: readonly (readonly Start[])[],
): readonly (readonly Start[])[] {
  const left = [...possible]
  for (let isChanged = true; isChanged;) {
    isChanged = false
    for (const { before, after, lag } of links) {
      const ready = Math.min(...left[before]!.map(({ finish }) => finish)) + lag
      const latest = Math.max(...left[after]!.map(({ start }) => start)) - lag
      const first = left[before]!.filter(({ finish }) => finish <= latest)
      const second = left[after]!.filter(({ start }) => start >= ready)
      isChanged ||= first.length < left[before]!.length || second.length < left[after]!.length
      left[before] = first
      left[after] = second
    }
  }
  return left
}

/** Columns by tick that add up what happens up to it. */
function steps(
  model: LinearModel,
  { horizon }: Problem,
  choices: readonly Choice[],
  activity: number,
  when: (choice: Choice) => number,
): readonly number[] {
  const happening = Map.groupBy(
    choices.filter((each) => each.activity === activity),
    when,
  )
  const columns = ticksTo(horizon).map(() => model.column(false, 1))
  columns.forEach((column, tick) => {
    const before = columns[tick - 1]
    const now = (happening.get(tick) ?? []).map((each): Term => [-1, each.column])
    model.row(0, [[1, column], ...(before === undefined ? [] : [[-1, before] as const]), ...now], 0)
  })
  return columns
}

function orderRows({ links, horizon }: Problem, model: LinearModel, { started, finished }: Time): void {
  for (const { before, after, lag } of links)
    for (const tick of ticksTo(horizon)) {
      const ready = finished[before]?.[tick - lag]
      model.row(
        -Infinity,
        [[1, started[after]![tick]!], ...(ready === undefined ? [] : [[-1, ready] as const])],
        0,
      )
    }
}

/** Nobody does two things in one tick; a pause belongs to the work that it interrupts. */
function peopleRows(
  { people, horizon }: Problem,
  model: LinearModel,
  choices: readonly Choice[],
  moves: readonly MoveChoice[],
): void {
  const byStart = Map.groupBy(moves, ({ car, start }) => `${car} ${start}`)
  const tasks = [
    ...choices,
    // The crews of a car's moves that start together are the same columns, whichever way the move leads.
    ...[...byStart.values()].flatMap((own) => {
      const crews = new Map(
        own.flatMap((each) => each.crews.map((crew) => [crew.column, { ...each, ...crew }])),
      )
      return [...crews.values()]
    }),
  ]
  people.forEach((_, person) => {
    const own = tasks.filter(({ crew }) => crew.includes(person))
    for (const tick of ticksTo(horizon - 1)) {
      const busy = own.filter(({ start, finish }) => start <= tick && tick < finish)
      if (busy.length > 1)
        model.row(
          0,
          busy.map(({ column }) => [1, column]),
          1,
        )
    }
  })
}

/** Open stands in one tick: not two that are apart, and none of a car that is being moved unless it is braced. */
function standRows(problem: Problem, model: LinearModel, { started, finished }: Time, flow: Flow): void {
  const { stands, apart, cars, horizon } = problem
  /** Open = 1 - given + terms, with `given` 0 where it is open at tick 0. */
  const openAt = (
    stand: number,
    tick: number,
  ): { readonly given: number; readonly terms: readonly Term[] } => {
    const { from, until } = stands[stand]!
    const closed: Term = [-1, finished[until]![tick]!]
    return from === null
      ? { given: 1, terms: [closed] }
      : { given: 0, terms: [[1, started[from]![tick]!], closed] }
  }
  for (const tick of ticksTo(horizon - 1)) {
    for (const [one, other] of apart) {
      if (stands[one]!.from === null && stands[other]!.from === null) continue
      const first = openAt(one, tick)
      const second = openAt(other, tick)
      model.row(-Infinity, [...first.terms, ...second.terms], 1 - first.given - second.given)
    }
    stands.forEach(({ car }, stand) => {
      const moving = flow.moving(car, tick)
      if (cars[car]!.braced || moving.length === 0) return
      const { given, terms } = openAt(stand, tick)
      model.row(-Infinity, [...terms, ...moving.map(({ column }): Term => [1, column])], 1 - given)
    })
  }
}

/** What runs uses; what is held from a first start to a last finish is held when anything of it has begun and any is left. */
function resourceRows(problem: Problem, model: LinearModel, { started, finished }: Time): void {
  const { resources, activities, spans, horizon } = problem
  for (const tick of ticksTo(horizon - 1)) {
    const held = spans.map((span) => {
      const column = model.column(false, 1)
      for (const last of span.activities) {
        if (span.held)
          model.row(
            1,
            [
              [1, column],
              [1, finished[last]![tick]!],
            ],
            Infinity,
          )
        for (const first of span.activities)
          model.row(
            0,
            [
              [1, column],
              [-1, started[first]![tick]!],
              [1, finished[last]![tick]!],
            ],
            Infinity,
          )
      }
      return column
    })
    resources.forEach(({ capacity }, resource) => {
      const running = activities.flatMap(({ uses }, at) =>
        uses.flatMap((use): Term[] =>
          use.resource === resource
            ? [
                [use.amount, started[at]![tick]!],
                [-use.amount, finished[at]![tick]!],
              ]
            : [],
        ),
      )
      const spanned = spans.flatMap((span, at): Term[] =>
        span.resource === resource ? [[span.amount, held[at]!]] : [],
      )
      if (running.length + spanned.length > 0) model.row(-Infinity, [...running, ...spanned], capacity)
    })
  }
}

/** Weighted lateness, moves and end. */
function scoreRows(
  { cars, activities, horizon }: Problem,
  model: LinearModel,
  choices: readonly Choice[],
  moves: readonly MoveChoice[],
): readonly (readonly Term[])[] {
  const longest = horizon + Math.max(0, ...activities.map(({ tail }) => tail))
  const doneAt = ({ activity, finish }: Choice): number => finish + activities[activity]!.tail
  const lateness = cars.flatMap(({ due, weight }, car): Term[] => {
    const own = choices.filter(({ activity }) => activities[activity]!.car === car)
    if (due === null || own.length === 0) return []
    const late = model.column(false, longest)
    for (const done of Map.groupBy(own, ({ activity }) => activity).values())
      model.row(
        0,
        [[1, late], ...done.map((each): Term => [-Math.max(0, doneAt(each) - due), each.column])],
        Infinity,
      )
    return [[weight, late]]
  })
  const end = model.column(false, longest)
  for (const done of Map.groupBy(choices, ({ activity }) => activity).values())
    model.row(0, [[1, end], ...done.map((each): Term => [-doneAt(each), each.column])], Infinity)
  return [lateness, moves.map(({ column }): Term => [1, column]), [[1, end]]]
}
