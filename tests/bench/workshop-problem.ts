import {
  TICK_MINUTES,
  type Activity,
  type Calendar,
  type Link,
  type PlanCar,
  type Problem,
  type Stand,
} from '../../domain/plan/problem.ts'
import { createRandom, type Random } from '../support/random.ts'

/** Sizes of a workshop to measure on: 20 cars share 8 bays and 12 people; other numbers of cars in proportion. */
export interface WorkshopSize {
  readonly cars: number
  readonly seed: number
}

const HOUR = 60 / TICK_MINUTES
const DAY = 24 * HOUR
const WEEKS = 26
const REPAIRS = 8

/** Kinds of bays; the first four of a workshop cover all that its work needs. */
const METALWORK = 0
const JIG = 1
const BOOTH = 2
const BAYS = [[METALWORK, JIG], [METALWORK], [BOOTH], [METALWORK], [METALWORK], [METALWORK], [METALWORK, JIG], [METALWORK]] // prettier-ignore

type Skill = 'sheet metal' | 'welding' | 'painting'
/** So that any three next to each other have every skill. */
const SKILLS: readonly (readonly Skill[])[] = [
  ['sheet metal', 'welding'],
  ['painting'],
  ['sheet metal', 'welding'],
]

/** Hours of one person, or of each of two; hot work is watched for an hour; curing in clock hours. */
const GATES: readonly {
  readonly hours: number
  readonly skill: Skill
  readonly people: number
  readonly hot: boolean
  readonly cure: number
}[] = [
  { hours: 3, skill: 'sheet metal', people: 1, hot: true, cure: 0 },
  { hours: 1, skill: 'sheet metal', people: 1, hot: false, cure: 0 },
  { hours: 8, skill: 'sheet metal', people: 1, hot: true, cure: 0 },
  { hours: 2, skill: 'painting', people: 1, hot: false, cure: 12 },
  { hours: 2, skill: 'painting', people: 1, hot: false, cure: 16 },
  { hours: 1.5, skill: 'sheet metal', people: 2, hot: false, cure: 0 },
  { hours: 5, skill: 'welding', people: 1, hot: true, cure: 0 },
  { hours: 3, skill: 'painting', people: 1, hot: false, cure: 24 },
]
const OPENED = 0
const FABRICATED = 2
const WELDED = 6
const PAINTED = 7

/** The sides of a car's repairs, whether they bear load, and which of the repairs before lies over them. */
const PLACES: readonly { readonly side: number; readonly bears: boolean; readonly under: number | null }[] = [
  { side: 0, bears: true, under: null },
  { side: 0, bears: true, under: 0 },
  { side: 0, bears: false, under: null },
  { side: 1, bears: true, under: null },
  { side: 1, bears: true, under: 3 },
  { side: 1, bears: false, under: 4 },
  { side: 2, bears: true, under: null },
  { side: 2, bears: false, under: null },
]

/**
 * A made-up workshop over half a year: eight repairs of eight gates on each car, with covers, sides, curing, fire watches,
 * late parts, holidays and cars that come one after another. The same for the same size and seed.
 */
export function workshopProblem({ cars: count, seed }: WorkshopSize): Problem {
  const random = createRandom(seed)
  const people = Math.max(3, Math.round(count * 0.6))
  const bays = Array.from({ length: Math.max(4, Math.round(count * 0.4)) }, (_, bay) => ({
    kinds: BAYS[bay % BAYS.length] ?? [],
    places: 1,
    storage: false,
  }))
  const homes = bays.flatMap(({ kinds }, bay) => (kinds.includes(METALWORK) ? [bay] : []))
  const cars = Array.from({ length: count }, (_, car) => createCar(homes[car] ?? null, random))
  const work = cars.map((car, index) => carWork(car, index, people, random))
  return {
    horizon: WEEKS * 7 * DAY,
    midnights: Array.from({ length: WEEKS * 7 + 1 }, (_, day) => day * DAY),
    calendars: Array.from({ length: people }, () => createCalendar(random)),
    people: Array.from({ length: people }, (_, calendar) => ({ calendar })),
    bays: [...bays, { kinds: [], places: count, storage: true }],
    resources: [],
    cars,
    activities: work.flatMap(({ activities }) => activities),
    links: work.flatMap(({ links }) => links),
    stands: work.flatMap(({ stands }) => stands),
    apart: work.flatMap(({ stands, sides }, index) => apartOf(sides, index * stands.length)),
    spans: [],
    move: { work: HOUR / 2, people: 2, able: Array.from({ length: people }, (_, person) => person) },
  }
}

/** Those that find no bay come in the first two months; promised dates lie within the half year. */
function createCar(bay: number | null, random: Random): PlanCar {
  const week = bay === null ? random.between(1, 8) : 0
  const due = Math.min(WEEKS, week + random.between(5, 14))
  return {
    due: (due * 7 - 2) * DAY,
    weight: random.pick([1, 1, 2, 4]),
    bay,
    arrives: week * 7 * DAY + (bay === null ? 8 * HOUR : 0),
    braced: random.next() < 0.5,
    bookings: [],
  }
}

interface CarWork {
  readonly activities: readonly Activity[]
  readonly links: readonly Link[]
  readonly stands: readonly Stand[]
  readonly sides: readonly number[]
}

function carWork({ arrives }: PlanCar, car: number, people: number, random: Random): CarWork {
  const base = car * REPAIRS * GATES.length
  const at = (repair: number, gate: number): number => base + repair * GATES.length + gate
  const activities = PLACES.flatMap((_, repair) =>
    repairWork({ car, repair: car * REPAIRS + repair, arrives, people }, random),
  )
  const bearing = PLACES.flatMap(({ side, bears }, repair) => (bears ? [{ side, repair }] : []))
  return {
    activities,
    links: PLACES.flatMap(({ under }, repair) => [
      ...GATES.slice(1).map((_, gate) => ({
        before: at(repair, gate),
        after: at(repair, gate + 1),
        lag: (GATES[gate]?.cure ?? 0) * HOUR,
      })),
      ...(under === null
        ? []
        : [
            { before: at(under, OPENED), after: at(repair, OPENED), lag: 0 },
            { before: at(repair, PAINTED), after: at(under, WELDED), lag: 24 * HOUR },
          ]),
    ]),
    stands: bearing.map(({ repair }) => ({ car, from: at(repair, OPENED), until: at(repair, WELDED) })),
    sides: bearing.map(({ side }) => side),
  }
}

function repairWork(
  place: { readonly car: number; readonly repair: number; readonly arrives: number; readonly people: number },
  random: Random,
): readonly Activity[] {
  const partDays = random.next() < 0.1 ? random.between(5, 30) : 0
  const isOuter = place.repair % REPAIRS === 2
  // Whole: a shell that is open and not braced could not be moved to the jig in the middle of it.
  const needsJig = place.car % 4 === 0 && place.repair % REPAIRS === 3
  return GATES.map(({ hours, skill, people, hot, cure }, gate) => ({
    work: Math.max(1, Math.round(hours * HOUR * (0.4 + 0.9 * random.next()))),
    earliest: gate === FABRICATED && partDays > 0 ? place.arrives + partDays * DAY : 0,
    latestStart: null,
    car: place.car,
    bayKind: isOuter && gate === PAINTED ? BOOTH : needsJig ? JIG : METALWORK,
    crew: { people, able: ableOf(skill, place.people), named: [] },
    watch: hot ? HOUR : 0,
    uses: [],
    tail: gate === PAINTED ? cure * HOUR : 0,
    repair: place.repair,
    first: null,
    inForce: null,
  }))
}

function ableOf(skill: Skill, people: number): readonly number[] {
  return Array.from({ length: people }, (_, person) => person).filter((person) =>
    SKILLS[person % SKILLS.length]?.includes(skill),
  )
}

/** Stands on different sides of one car, by their numbers in the whole problem. */
function apartOf(sides: readonly number[], base: number): readonly (readonly [number, number])[] {
  return sides.flatMap((side, a) =>
    sides.flatMap((other, b) => (a < b && side !== other ? [[base + a, base + b] as const] : [])),
  )
}

/** Monday to Friday 08:00 to 12:30 and 13:00 to 16:30 but for two holidays of all and a week off of one's own. */
function createCalendar(random: Random): Calendar {
  const weekOff = random.between(2, WEEKS - 2)
  const days = Array.from({ length: WEEKS * 7 }, (_, day) => day).filter(
    (day) => day % 7 < 5 && day !== 30 && day !== 71 && Math.floor(day / 7) !== weekOff,
  )
  const span = (day: number, from: number, to: number) => ({
    from: day * DAY + from * HOUR,
    to: day * DAY + to * HOUR,
  })
  return { spans: days.flatMap((day) => [span(day, 8, 12.5), span(day, 13, 16.5)]) }
}
