import { gateSchema, GATES } from '../../domain/gates.ts'
import {
  bayIdSchema,
  bookingIdSchema,
  carIdSchema,
  personIdSchema,
  planIdSchema,
  repairIdSchema,
  visitIdSchema,
  type BayId,
  type CarId,
} from '../../domain/ids.ts'
import type { Plan, PlannedCar, PlannedMove, PlannedStay, PlannedWork } from '../../domain/plan/plan.ts'
import { addDays, weekdayNumber } from '../../domain/time/local-date.ts'
import { dayEnd, dayStart, localDateOf, localToInstant } from '../../domain/time/zone.ts'
import { targetKey } from '../../domain/value/target.ts'
import type { PlanDay, PlanView } from '../../domain/views/plan-view-shapes.ts'
import { createRandom } from './random.ts'

const zone = 'Europe/Berlin'
const firstDay = '2026-11-23'
/** Wednesday, twenty to eleven. */
const now = Date.parse('2026-11-25T10:40:00+01:00')
const DAYS = 183
const HOUR = 3_600_000

const bays = [
  ['1', 'metalwork'],
  ['2', 'metalwork'],
  ['3', 'jig'],
  ['4', 'lift'],
  ['5', 'metalwork'],
  ['6', 'preparation'],
  ['7', 'booth'],
  ['Yard', 'storage'],
] as const
const people = [
  ['Wren', 'metalwork'],
  ['Joss', 'metalwork'],
  ['Tam', 'welding'],
  ['Ines', 'paint'],
  ['Odo', 'metalwork'],
  ['Pell', 'welding'],
  ['Maud', 'sealing'],
  ['Fen', 'metalwork'],
  ['Rook', 'paint'],
  ['Thea', 'trial fitting'],
  ['Bram', 'welding'],
  ['Lise', 'metalwork'],
] as const
const carNames = [
  'Ostwick', 'Dunmere', 'Marrick', 'Pellin', 'Velloran', 'Hesslow', 'Tamsel', 'Larkspur', 'Arden', 'Corvane',
  'Brindle', 'Quillon', 'Saffron', 'Wexley', 'Thorne', 'Galloway Ten', 'Merrow', 'Isling', 'Kestrel', 'Juniper',
] // prettier-ignore
const repairNames = [
  'Sill, left',
  'Sill, right',
  'Boot floor',
  'Rear wing',
  'Floor edge',
  'Bulkhead',
  'Side well',
  'Roof gutter',
  'Door skin',
  'Scuttle',
]

export interface PlanFixtureOptions {
  readonly seed?: number
  /** Of 20; each has ten repairs, whose gates are planned until there are `works` of them. */
  readonly cars?: number
  readonly works?: number
}

/**
 * A plan as the Plan screen reads it: 20 cars, 8 bays, 12 people, 1,500 pieces of work over six months, the same for the
 * same seed. It is made to be drawn: people and bays are never taken twice, but no rule of order is kept.
 */
export function planViewFixture({ seed = 1, cars = 20, works = 1_500 }: PlanFixtureOptions = {}): PlanView {
  const random = createRandom(seed)
  const days = workingDays()
  const carIds = carNames.slice(0, cars).map((name) => carIdSchema.parse(`car-${slug(name)}`))
  const planned = planWork(carIds, works, days, random)
  const { stays, moves } = planStays(carIds, days, random)
  const plannedCars = carIds.map((carId, index) => planCar(carId, index, planned, random))
  const plan: Plan = {
    madeAt: now - 2 * 60_000,
    work: planned,
    stays,
    moves,
    cars: plannedCars,
    faults: [],
    score: { latenessHours: 96, moves: moves.length, end: days.at(-1)?.to ?? now, changes: 0 },
  }
  return {
    zone,
    now,
    state: 'settled',
    inForce: {
      planId: planIdSchema.parse('plan-in-force'),
      plan,
      takenAt: now - 20 * HOUR,
      takenBy: 'Maren Holt',
    },
    proposal: null,
    bays: bays.map(([name, kind], index) => ({
      bayId: bayAt(index),
      name,
      kinds: [kind],
      storage: kind === 'storage',
    })),
    people: people.map(([name, skill], index) => ({
      personId: personAt(index),
      name,
      skills: [skill],
      off: index === 2 ? [{ from: '2026-12-07', to: '2026-12-11' }] : [],
    })),
    cars: carIds.map((carId, index) => ({
      carId,
      visitId: visitIdSchema.parse(`visit-${carId}`),
      name: carNames[index] ?? '',
      shellNumber: `S-${101 + index}`,
      hatch: index % 12,
      promised: plannedCars[index]?.promised ?? null,
      priority: 1 + (index % 3),
      workNames: Object.fromEntries(
        planned
          .filter((work) => work.carId === carId)
          .map(({ target }) => [targetKey(target), nameOf(target)] as const),
      ),
    })),
    days,
  }
}

const slug = (name: string): string => name.toLowerCase().replaceAll(' ', '-')
const bayAt = (index: number): BayId => bayIdSchema.parse(`bay-number-${index + 1}`)
const personAt = (index: number) => personIdSchema.parse(`person-${slug(people[index]?.[0] ?? 'x')}-${index}`)

function nameOf(target: PlannedWork['target']): string {
  if (target.kind === 'task') return 'strip'
  return `${repairNames[Number(target.repairId.at(-1))] ?? ''}: ${target.gate}`
}

function workingDays(): readonly PlanDay[] {
  return Array.from({ length: DAYS }, (_, index) => {
    const date = addDays(firstDay, index)
    const isFree = weekdayNumber(date) > 5 || date === '2026-12-25'
    const span = (from: string, to: string) => ({
      from: localToInstant(date, from, zone),
      to: localToInstant(date, to, zone),
    })
    return {
      date,
      from: dayStart(date, zone),
      to: dayEnd(date, zone),
      spans: isFree ? [] : [span('08:00', '12:00'), span('12:30', '16:30')],
      holiday: date === '2026-12-25' ? 'Christmas Day' : null,
    }
  })
}

type Random = ReturnType<typeof createRandom>

/** Deals gates out to people in turn, two or three of a car at a time, each when the person is free. */
function planWork(carIds: readonly CarId[], count: number, days: readonly PlanDay[], random: Random) {
  const spans = days.flatMap((day) => day.spans)
  const free = people.map(() => now)
  const left = carIds.flatMap((carId) => Array.from({ length: 75 }, (_, index) => ({ carId, index })))
  const byPerson = people.map((_, person) =>
    left.filter((each) => (each.index >> 2) % people.length === person),
  )
  const work: PlannedWork[] = []
  for (let round = 0; work.length < count; round += 1) {
    const person = round % people.length
    const of = byPerson[person] ?? []
    const next = of.splice(random.between(0, Math.max(0, Math.min(2, of.length - 1))), 1)[0]
    if (next === undefined) {
      if (byPerson.every((list) => list.length === 0)) break
      continue
    }
    const hours = random.between(2, 11)
    const { start, finish } = inWorkingTime(spans, free[person] ?? now, hours)
    free[person] = finish
    work.push(plannedWork(next.carId, next.index, person, { start, finish, hours, isFirst: round < 4 }))
  }
  return work.toSorted((a, b) => a.start - b.start)
}

function inWorkingTime(spans: PlanDay['spans'], from: number, hours: number) {
  let left = hours * HOUR
  let start: number | null = null
  for (const span of spans) {
    if (span.to <= from) continue
    const begin = Math.max(from, span.from)
    start ??= begin
    if (span.to - begin >= left) return { start, finish: begin + left }
    left -= span.to - begin
  }
  return { start: start ?? from, finish: from + left }
}

interface When {
  readonly start: number
  readonly finish: number
  readonly hours: number
  readonly isFirst: boolean
}

function plannedWork(
  carId: CarId,
  index: number,
  person: number,
  { start, finish, hours, isFirst }: When,
): PlannedWork {
  const isPinned = index % 17 === 3
  const gate = gateSchema.parse(GATES[index % GATES.length])
  return {
    carId,
    visitId: visitIdSchema.parse(`visit-${carId}`),
    target: { kind: 'gate', repairId: repairIdSchema.parse(`repair-${slug(carId)}-${index >> 3}`), gate },
    start,
    finish,
    people: [personAt(person)],
    bayId: bayAt(index % 7),
    hours,
    begun: isFirst,
    pinned: { people: isPinned, day: isPinned && index % 2 === 1 },
    why:
      index % 9 === 5
        ? { reason: 'curing', words: 'waits for the sealer until Thu 26 Nov, 14:30' }
        : { reason: 'people', words: `waits for ${people[person]?.[0] ?? ''}, who is on other work before` },
  }
}

/** Each bay holds one car after the other; a car that leaves a bay is moved to the next one that is free. */
function planStays(carIds: readonly CarId[], days: readonly PlanDay[], random: Random) {
  const stays: PlannedStay[] = []
  const moves: PlannedMove[] = []
  const bayFree = bays.map(() => days[0]?.from ?? now)
  for (let turn = 0; turn < carIds.length * 3; turn += 1) {
    const carId = carIds[turn % carIds.length] as CarId
    const before = stays.findLast((stay) => stay.carId === carId)
    const bay = turn % (bays.length - 1)
    const from = Math.max(bayFree[bay] ?? now, before?.to ?? 0)
    const to = from + random.between(4, 16) * 24 * HOUR + 3 * HOUR
    bayFree[bay] = to
    const bookingId = turn % 9 === 2 ? bookingIdSchema.parse(`booking-${turn}-of-plan`) : null
    stays.push({ carId, bayId: bayAt(bay), from, to, bookingId })
    if (before !== undefined) {
      const yardFrom = before.to
      if (from - yardFrom > 24 * HOUR) {
        stays.push({ carId, bayId: bayAt(bays.length - 1), from: yardFrom, to: from, bookingId: null })
      }
      const times = { start: from, finish: from + HOUR / 2 }
      moves.push({ carId, from: before.bayId, to: bayAt(bay), ...times, people: [] })
    }
  }
  return { stays, moves }
}

function planCar(carId: CarId, index: number, work: readonly PlannedWork[], random: Random): PlannedCar {
  const finish = Math.max(now, ...work.filter((each) => each.carId === carId).map((each) => each.finish))
  const finish50 = finish + random.between(0, 3) * 24 * HOUR
  const finish80 = finish50 + random.between(1, 8) * 24 * HOUR
  return {
    carId,
    visitId: visitIdSchema.parse(`visit-${carId}`),
    promised: index % 5 === 4 ? null : addDays(localDateOf(finish50, zone), random.between(-4, 14)),
    priority: 1 + (index % 3),
    finish,
    finish50,
    finish80,
    drivers: [{ name: 'Sill, left', share: 0.4 }],
  }
}
