import type {
  Activity,
  Calendar,
  Crew,
  Link,
  PlanBay,
  PlanCar,
  Problem,
  ResourceSpan,
  Stand,
} from '../../domain/plan/problem.ts'
import { activity, planBay, planCar, planProblem, planYard } from './plan-problem.ts'
import { createRandom, type Random } from './random.ts'

type Range = readonly [least: number, most: number]

/** How much of everything a random workshop has. */
export interface WorkshopSize {
  readonly cars: Range
  readonly activities: Range
  readonly bays: Range
  readonly people: Range
  readonly days: number
  /** Ticks: a day has six such steps, and all times are whole steps. */
  readonly step: number
}

/** Small enough for a proven optimum: a tick is four hours long. */
export const SMALL: WorkshopSize = {
  cars: [1, 3],
  activities: [2, 10],
  bays: [1, 3],
  people: [2, 3],
  days: 12,
  step: 1,
}

/** As many cars as bays and more, on ticks of five minutes. */
export const MIDDLE: WorkshopSize = {
  cars: [4, 8],
  activities: [30, 120],
  bays: [3, 5],
  people: [3, 7],
  days: 90,
  step: 48,
}

const STEPS_A_DAY = 6
const KINDS = 2
const SKILLS = 2

/** The same workshop for the same seed. Nearly all can be planned whole by the horizon. */
export function randomWorkshopProblem(seed: number, size: WorkshopSize): Problem {
  const random = createRandom(seed)
  const people = peopleOf(random, size)
  const bays = baysOf(random, size)
  const { cars, kindsOf } = carsOf(random, size, bays)
  const repairs = repairsOf(random, size, cars, bays)
  const activities = repairs.flatMap((repair) =>
    workOf(
      random,
      size,
      repair,
      people,
      repair.stand === 'open' ? bays[cars[repair.car]!.bay!]!.kinds : kindsOf[repair.car]!,
    ),
  )
  const horizon = size.days * STEPS_A_DAY * size.step
  return planProblem({
    horizon,
    midnights: Array.from({ length: size.days + 2 }, (_, day) => day * STEPS_A_DAY * size.step),
    calendars: people.map(({ calendar }) => calendar),
    people: people.map((_, calendar) => ({ calendar })),
    bays,
    cars,
    activities,
    links: linksOf(random, size, repairs),
    ...standsOf(random, repairs),
    ...resourcesOf(random, repairs),
    move: moveOf(random, size, people.length),
  })
}

interface Worker {
  readonly calendar: Calendar
  readonly skills: readonly number[]
}

/** A chain of work on one car; `first` is the index of its first activity. */
interface Repair {
  readonly index: number
  readonly car: number
  readonly first: number
  readonly length: number
  /** It stands open from its first work (or from before tick 0) to its last. */
  readonly stand: 'none' | 'opens' | 'open'
}

const chance = (random: Random, share: number): boolean => random.next() < share

const peopleOf = (random: Random, size: WorkshopSize): readonly Worker[] => {
  const weekday = random.between(0, 6)
  return Array.from({ length: random.between(...size.people) }, (_, person) => ({
    calendar: calendarOf(random, size, weekday),
    // Two people have each skill, so that work for two can be done.
    skills: person < 2 ? [0, 1] : [random.between(0, SKILLS - 1)],
  }))
}

/** Four working steps a day, some with a break between; weekends off, and now and then a day's absence. */
const calendarOf = (random: Random, { days, step }: WorkshopSize, weekday: number): Calendar => {
  const shifts: readonly (readonly Range[])[] = [
    [[1, 5]],
    [[2, 6]],
    [
      [1, 3],
      [4, 6],
    ],
    [[1, 4]],
  ]
  const shift = random.pick(shifts)
  const isOff = (day: number): boolean => (day + weekday) % 7 > 4 || chance(random, 0.08)
  return {
    spans: Array.from({ length: days }, (_, day) => day).flatMap((day) =>
      isOff(day)
        ? []
        : shift.map(([from, to]) => ({
            from: (day * STEPS_A_DAY + from) * step,
            to: (day * STEPS_A_DAY + to) * step,
          })),
    ),
  }
}

/** The first bay is fit for everything, the others for one kind each; half of the workshops have a yard behind them. */
const baysOf = (random: Random, size: WorkshopSize): readonly PlanBay[] => [
  planBay({ kinds: [0, 1] }),
  ...Array.from({ length: random.between(...size.bays) - 1 }, () =>
    planBay({ kinds: [random.between(0, KINDS - 1)] }),
  ),
  ...(chance(random, 0.5) ? [planYard()] : []),
]

/** Every car's place, and the kinds of bay that its work may ask for: one kind for a car whose bay is booked. */
const carsOf = (
  random: Random,
  size: WorkshopSize,
  bays: readonly PlanBay[],
): { readonly cars: readonly PlanCar[]; readonly kindsOf: readonly (readonly number[])[] } => {
  const free = bays.flatMap(({ storage }, bay) => (storage ? [] : [bay]))
  const yard = bays.findIndex(({ storage }) => storage)
  const cars = Array.from({ length: random.between(...size.cars) }, () => {
    const due = chance(random, 0.8) ? random.between(4, 6 * STEPS_A_DAY) * size.step : null
    const car = planCar({ due, weight: random.between(1, 3), bay: null, braced: chance(random, 0.4) })
    const place = random.between(0, 3)
    if (place === 0 && yard >= 0) return { ...car, bay: yard }
    if (place <= 1 && free.length > 0)
      return { ...car, bay: free.splice(random.between(0, free.length - 1), 1)[0]! }
    const arrives = chance(random, 0.5) ? random.between(0, 2 * STEPS_A_DAY) * size.step : 0
    return { ...car, arrives }
  })
  const booked = cars.findIndex(({ bay }) => bay === null)
  if (booked < 0 || free.length === 0 || !chance(random, 0.4))
    return { cars, kindsOf: cars.map(() => [0, 1]) }
  const bay = random.pick(free)
  const from = random.between(0, 3 * STEPS_A_DAY) * size.step
  const bookings = [{ bay, from, to: from + random.between(2, STEPS_A_DAY) * size.step }]
  return {
    cars: cars.map((car, index) => (index === booked ? { ...car, bookings } : car)),
    kindsOf: cars.map((_, index) => (index === booked ? [random.pick(bays[bay]!.kinds)] : [0, 1])),
  }
}

/** Chains of one to four activities until there are enough; at most one of a car is open already, and only in a bay. */
const repairsOf = (
  random: Random,
  size: WorkshopSize,
  cars: readonly PlanCar[],
  bays: readonly PlanBay[],
): readonly Repair[] => {
  const wanted = Math.max(cars.length, random.between(...size.activities))
  const repairs: Repair[] = []
  const canBeOpen = new Set(cars.flatMap(({ bay }, car) => (bay === null || bays[bay]!.storage ? [] : [car])))
  for (let first = 0; first < wanted;) {
    const index = repairs.length
    const car = index < cars.length ? index : random.between(0, cars.length - 1)
    const length = Math.min(random.between(1, 4), wanted - first)
    const isOpen = chance(random, 0.25) && canBeOpen.delete(car)
    const stand = isOpen ? 'open' : length > 1 && chance(random, 0.35) ? 'opens' : 'none'
    repairs.push({ index, car, first, length, stand })
    first += length
  }
  return repairs
}

/** An open shell may not move: its work is all in a bay, and of one kind, so that it need not. */
const workOf = (
  random: Random,
  { step }: WorkshopSize,
  { index, car, length, stand }: Repair,
  people: readonly Worker[],
  kinds: readonly number[],
): readonly Activity[] => {
  const one = random.pick(kinds)
  return Array.from({ length }, () =>
    activity({
      car,
      repair: index,
      work: chance(random, 0.06) ? 0 : random.between(1, 4) * step,
      earliest: chance(random, 0.2) ? random.between(0, 3 * STEPS_A_DAY) * step : 0,
      bayKind: stand === 'none' ? (chance(random, 0.2) ? null : random.pick(kinds)) : one,
      crew: chance(random, 0.08) ? null : crewFor(random, people),
      watch: chance(random, 0.25) ? step : 0,
      tail: chance(random, 0.2) ? random.between(1, STEPS_A_DAY) * step : 0,
    }),
  )
}

const crewFor = (random: Random, people: readonly Worker[]): Crew => {
  const skill = random.between(0, SKILLS - 1)
  const able = people.flatMap(({ skills }, person) => (skills.includes(skill) ? [person] : []))
  return {
    people: chance(random, 0.2) ? 2 : 1,
    able,
    named: chance(random, 0.15) ? [random.pick(able)] : [],
  }
}

/** In the order of each chain, with curing between; now and then a repair covers another one of its car. */
const linksOf = (random: Random, { step }: WorkshopSize, repairs: readonly Repair[]): readonly Link[] => {
  const lag = (): number => (chance(random, 0.3) ? random.between(1, STEPS_A_DAY) * step : 0)
  const chains = repairs.flatMap(({ first, length }) =>
    Array.from({ length: length - 1 }, (_, at): Link => ({
      before: first + at,
      after: first + at + 1,
      lag: lag(),
    })),
  )
  const covers = repairs.flatMap((repair) => {
    const earlier = repairs.filter(({ car, index }) => car === repair.car && index < repair.index)
    if (earlier.length === 0 || !chance(random, 0.3)) return []
    const other = random.pick(earlier)
    return [{ before: other.first, after: repair.first + repair.length - 1, lag: 0 }]
  })
  return [...chains, ...covers]
}

const standsOf = (random: Random, repairs: readonly Repair[]): Pick<Problem, 'stands' | 'apart'> => {
  const stands = repairs
    .filter(({ stand }) => stand !== 'none')
    .map(({ car, first, length, stand }): Stand => ({
      car,
      from: stand === 'open' ? null : first,
      until: first + length - 1,
    }))
  const pairs = stands.flatMap((one, at) =>
    stands
      .slice(at + 1)
      .flatMap((other, next) =>
        other.car === one.car && chance(random, 0.6) ? [[at, at + 1 + next] as const] : [],
      ),
  )
  return { stands, apart: pairs }
}

/** In a third of the workshops one jig, held over whole repairs and used by single activities nowhere else. */
const resourcesOf = (random: Random, repairs: readonly Repair[]): Pick<Problem, 'resources' | 'spans'> => {
  if (!chance(random, 0.33)) return { resources: [], spans: [] }
  let isHeld = false
  const spans = repairs.flatMap(({ first, length }): ResourceSpan[] => {
    if (!chance(random, 0.4)) return []
    const held = !isHeld && chance(random, 0.3)
    if (held) isHeld = true
    return [{ resource: 0, amount: 1, activities: Array.from({ length }, (_, at) => first + at), held }]
  })
  return { resources: [{ capacity: 1 }], spans }
}

const moveOf = (random: Random, { step }: WorkshopSize, people: number): Problem['move'] => {
  const able = Array.from({ length: people }, (_, person) => person)
  return { work: random.between(1, 2) * step, people: random.pick([0, 1, 1, 2]), able }
}
