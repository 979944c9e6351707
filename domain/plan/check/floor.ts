import type { PlanCar, Problem } from '../problem.ts'
import type { Move, Placement, Schedule, Stay } from '../schedule.ts'
import { doOverlap, firstOverload } from './load.ts'
import { crewFaults, durationFaults } from './work.ts'
import type { JointTime } from './working-time.ts'

/** One place at a time for a car, a bay for no more cars than it has places, and work only where the shell stands. */
export function checkFloor(problem: Problem, schedule: Schedule, joint: JointTime): readonly string[] {
  const ways = problem.cars.map((car, index) => wayOf(car, index, schedule))
  return [
    ...unknownFaults(problem, schedule),
    ...schedule.moves.flatMap((move) => moveFaults(problem, move, joint)),
    ...ways.flatMap((way) => wayFaults(way)),
    ...ways.flatMap((way) => leavingFaults(problem, schedule, way)),
    ...problem.activities.flatMap((_, activity) => workplaceFaults(problem, schedule, ways, activity)),
    ...placesFaults(problem, schedule),
    ...bookingFaults(problem, schedule),
  ]
}

/** Where a car comes from and goes to, in order. */
interface Way {
  readonly index: number
  readonly car: PlanCar
  readonly stays: readonly Stay[]
  readonly moves: readonly Move[]
}

const wayOf = (car: PlanCar, index: number, { stays, moves }: Schedule): Way => ({
  index,
  car,
  stays: stays.filter((stay) => stay.car === index).toSorted((a, b) => a.from - b.from || a.to - b.to),
  moves: moves.filter((move) => move.car === index).toSorted((a, b) => a.start - b.start),
})

/** The move that began the stay; undefined where the shell stood at tick 0. */
const moveInto = ({ car, moves }: Way, stay: number): Move | undefined =>
  moves[car.bay === null ? stay : stay - 1]
const moveOutOf = (way: Way, stay: number): Move | undefined => moveInto(way, stay + 1)

function unknownFaults({ cars, bays }: Problem, { stays, moves }: Schedule): readonly string[] {
  return [
    ...[...stays, ...moves]
      .filter(({ car }) => cars[car] === undefined)
      .map(({ car }) => `There is no car ${car}.`),
    ...[...stays.map(({ bay }) => bay), ...moves.map(({ to }) => to)]
      .filter((bay) => bays[bay] === undefined)
      .map((bay) => `There is no bay ${bay}.`),
  ]
}

function moveFaults({ move: asked, horizon }: Problem, move: Move, joint: JointTime): readonly string[] {
  const crew = asked.people === 0 ? null : { people: asked.people, able: asked.able, named: [] }
  return [
    ...(Number.isInteger(move.start) && move.start >= 0
      ? []
      : [`starts at ${move.start}, no tick from 0 on`]),
    ...(move.finish <= horizon ? [] : [`finishes at ${move.finish}, after the horizon ${horizon}`]),
    ...(move.from === move.to ? [`leads from bay ${move.to} to the same bay`] : []),
    ...crewFaults(crew, move.crew),
    ...durationFaults({ work: asked.work, watch: 0 }, move, joint),
  ].map((fault) => `The move of car ${move.car} to bay ${move.to} ${fault}.`)
}

/** A stay begins with a move into it, or at tick 0, and ends with the move out of it. */
function wayFaults(way: Way): readonly string[] {
  const { index, car, stays, moves } = way
  const expected = moves.length + (car.bay === null ? 0 : 1)
  if (stays.length !== expected && stays.length + moves.length > 0)
    return [`Car ${index} has ${stays.length} stays where ${moves.length} moves make ${expected}.`]
  return stays.flatMap((stay, at) => {
    const into = moveInto(way, at)
    const out = moveOutOf(way, at)
    const name = `Car ${index}'s stay in bay ${stay.bay}`
    return [
      ...(into === undefined ? firstStayFaults(car, stay, name) : arrivalFaults(way, at, into, name)),
      ...(out === undefined || out.finish === stay.to
        ? []
        : [`${name} ends at ${stay.to}, but the move out of it finishes at ${out.finish}.`]),
      ...(stay.to >= (into?.finish ?? 0) && (out?.start ?? stay.to) >= (into?.finish ?? 0)
        ? []
        : [`${name} ends before the shell is in it.`]),
    ]
  })
}

const firstStayFaults = (car: PlanCar, stay: Stay, name: string): readonly string[] => [
  ...(stay.bay === car.bay ? [] : [`${name} comes first, but the shell stands in bay ${car.bay}.`]),
  ...(stay.from === 0 ? [] : [`${name} begins at ${stay.from}, but the shell stands there at 0.`]),
]

function arrivalFaults({ car, stays }: Way, at: number, into: Move, name: string): readonly string[] {
  const cameFrom = stays[at - 1]?.bay ?? null
  return [
    ...(into.to === stays[at]?.bay ? [] : [`${name} begins by a move to bay ${into.to}.`]),
    ...(into.from === cameFrom
      ? []
      : [
          `${name} begins by a move from ${placeName(into.from)}, but the shell comes from ${placeName(cameFrom)}.`,
        ]),
    ...(into.start === stays[at]?.from
      ? []
      : [`${name} begins at ${stays[at]?.from}, but the move into it starts at ${into.start}.`]),
    ...(into.from !== null || into.start >= car.arrives
      ? []
      : [`${name} begins at ${into.start}, but the car is not here before ${car.arrives}.`]),
  ]
}

const placeName = (bay: number | null): string => (bay === null ? 'outside' : `bay ${bay}`)

/** Where all the car's work in bays is placed, the shell leaves with the last of it; until all is placed it may wait. */
function leavingFaults(problem: Problem, { placed }: Schedule, { index, stays }: Way): readonly string[] {
  const inBays = problem.activities.flatMap((activity, at) =>
    activity.car === index && activity.bayKind !== null ? [placed[at] ?? null] : [],
  )
  const last = Math.max(0, ...inBays.map((each) => each?.finish ?? Infinity))
  const stay = stays.at(-1)
  if (stay === undefined || stay.to === last) return []
  if (last === Infinity)
    return stay.to <= problem.horizon ? [] : [`Car ${index} stays until ${stay.to}, after the horizon.`]
  return [
    `Car ${index} leaves bay ${stay.bay} at ${stay.to}, but its last work in a bay finishes at ${last}.`,
  ]
}

function workplaceFaults(
  problem: Problem,
  { placed }: Schedule,
  ways: readonly Way[],
  activity: number,
): readonly string[] {
  const { car, bayKind } = problem.activities[activity] as Problem['activities'][number]
  const placement = placed[activity] ?? null
  if (placement === null) return []
  const { bay } = placement
  if (car === null || bayKind === null)
    return bay === null ? [] : [`Activity ${activity} needs no bay but is placed in bay ${bay}.`]
  if (bay === null) return [`Activity ${activity} needs a bay but is placed in none.`]
  const place = problem.bays[bay]
  if (place === undefined || place.storage || !place.kinds.includes(bayKind))
    return [`Activity ${activity} is placed in bay ${bay}, which is not fit for it.`]
  const way = ways[car] as Way
  return way.stays.some((stay, at) => stay.bay === bay && isWorkTime(way, at, placement))
    ? []
    : [
        `Activity ${activity} runs from ${placement.start} to ${placement.finish}, but car ${car} does not stand still in bay ${bay} then.`,
      ]
}

/** Between the end of the move into the stay and the start of the move out of it. */
const isWorkTime = (way: Way, at: number, { start, finish }: Placement): boolean => {
  const stay = way.stays[at] as Stay
  return start >= (moveInto(way, at)?.finish ?? stay.from) && finish <= (moveOutOf(way, at)?.start ?? stay.to)
}

function placesFaults({ bays }: Problem, { stays }: Schedule): readonly string[] {
  return bays.flatMap(({ places }, bay) => {
    const uses = stays.filter((stay) => stay.bay === bay).map((stay) => ({ ...stay, amount: 1 }))
    const tick = firstOverload(uses, places)
    return tick === null ? [] : [`Bay ${bay} takes ${places}, but holds more from ${tick} on.`]
  })
}

/** A booking keeps one place free of other cars. */
function bookingFaults({ cars, bays }: Problem, { stays }: Schedule): readonly string[] {
  return cars.flatMap((car, index) =>
    car.bookings.flatMap((booking) => {
      const others = stays.filter(
        (stay) => stay.bay === booking.bay && stay.car !== index && doOverlap(stay, booking),
      )
      const within = others.map((stay) => ({
        from: Math.max(stay.from, booking.from),
        to: Math.min(stay.to, booking.to),
        amount: 1,
      }))
      const tick = firstOverload(within, (bays[booking.bay]?.places ?? 1) - 1)
      return tick === null
        ? []
        : [`Bay ${booking.bay} is booked for car ${index}, but car ${others[0]?.car} is in it at ${tick}.`]
    }),
  )
}
