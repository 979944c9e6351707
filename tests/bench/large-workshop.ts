import { appendFacts } from '../../db/append-facts.ts'
import { inTransaction } from '../../db/handle.ts'
import { keepPlan } from '../../db/plans.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { fact, type NewFact } from '../../domain/facts.ts'
import {
  PLACES,
  REWORK_CAUSES,
  type EstimateLine,
  type RepairPlan,
  type WorkTarget,
} from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import {
  carIdSchema,
  commandIdSchema,
  entryIdSchema,
  lineIdSchema,
  personIdSchema,
  planIdSchema,
  repairIdSchema,
  typeIdSchema,
  variationIdSchema,
  visitIdSchema,
  type CarId,
  type PersonId,
  type RepairId,
  type VisitId,
} from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { addDays, weekdayNumber } from '../../domain/time/local-date.ts'
import { localToInstant, MS_PER_HOUR } from '../../domain/time/zone.ts'
import { usualSettings } from '../../domain/usual-workshop.ts'
import { noAsks, repairPlan } from '../support/plans.ts'
import { createRandom, type Random } from '../support/random.ts'
import { desk, manager, owner, painter, welder, zone, type Workshop } from '../support/workshop.ts'

export interface LargeSize {
  readonly cars: number
  readonly repairsPerCar: number
  readonly entriesPerCar: number
  /** The last ones; all others are delivered. */
  readonly carsInWork: number
  /** On one car in work each. */
  readonly runningClocks: number
}

export interface LargeWorkshop {
  readonly cars: readonly LargeCar[]
  readonly inWork: readonly LargeCar[]
  readonly people: readonly PersonId[]
}

export interface LargeCar {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly repairs: readonly RepairId[]
}

/** 10,000 repairs and 200,000 time entries: what the program must stay quick with. */
export const LARGE: LargeSize = {
  cars: 500,
  repairsPerCar: 20,
  entriesPerCar: 400,
  carsInWork: 40,
  runningClocks: 8,
}

const CARS_PER_PLAN = 20
const DAYS_BETWEEN_PLANS = 28
/** Working days from a car's coming in to its delivery; cars in work are half way. */
const WORKING_DAYS = 60
const TYPES = 12

/**
 * Fills a small workshop with years of work: cars come in by twenties, their estimates are accepted, a plan is taken, and
 * they are worked on gate by gate. Facts are appended in bulk as they would be recorded, and the derived tables made from
 * them. The same seed gives the same workshop. Cost: a minute or two for {@link LARGE}.
 */
export function fillLargeWorkshop(workshop: Workshop, size: LargeSize, seed = 1): LargeWorkshop {
  const random = createRandom(seed)
  const people = [
    welder,
    painter,
    ...Array.from({ length: 10 }, (_, index) => personIdSchema.parse(`person-${index}`)),
  ]
  const of: Filling = { workshop, size, random, people, today: '2026-11-23' }
  addPeopleAndTypes(of)
  const cars = Array.from({ length: size.cars }, (_, index) => largeCar(index, size))
  const batches = Array.from({ length: Math.ceil(cars.length / CARS_PER_PLAN) }, (_, index) =>
    cars.slice(index * CARS_PER_PLAN, (index + 1) * CARS_PER_PLAN),
  )
  for (const [index, batch] of batches.entries()) {
    const monday = addDays(of.today, -(batches.length - index) * DAYS_BETWEEN_PLANS)
    const isInWork = index * CARS_PER_PLAN >= size.cars - size.carsInWork
    // One transaction, as the disk would be waited for thousands of times.
    inTransaction(workshop.db.writer, () => {
      for (const car of batch) append(of, car, monday, bringIn(car, of))
      takePlan(of, batch, monday, index)
      for (const car of batch) work(of, car, monday, isInWork)
    })
  }
  const inWork = cars.slice(size.cars - size.carsInWork)
  for (const [index, car] of inWork.slice(0, size.runningClocks).entries())
    append(of, car, of.today, [startClock(car, people[index % people.length] as PersonId, workshop.now)])
  rebuildDerived(workshop.db)
  return { cars, inWork, people }
}

interface Filling {
  readonly workshop: Workshop
  readonly size: LargeSize
  readonly random: Random
  readonly people: readonly PersonId[]
  readonly today: string
}

function largeCar(index: number, { repairsPerCar }: LargeSize): LargeCar {
  return {
    carId: carIdSchema.parse(`car-number-${index}`),
    visitId: visitIdSchema.parse(`visit-of-${index}`),
    repairs: Array.from({ length: repairsPerCar }, (_, repair) =>
      repairIdSchema.parse(`repair-${index}-${repair}`),
    ),
  }
}

const typeOf = (index: number) => typeIdSchema.parse(`type-kind-${index % TYPES}`)

function addPeopleAndTypes(of: Filling): void {
  const people = of.people
    .slice(2)
    .map((personId) =>
      fact('personAdded', {
        personId,
        roles: ['technician'],
        skills: ['metalwork'],
        week: null,
        absences: [],
      }),
    )
  const types = Array.from({ length: TYPES }, (_, index) =>
    fact('typeSaved', { typeId: typeOf(index), version: 1, plan: repairPlan(`Kind ${index}`) }),
  )
  const settings = fact('settingsSet', { ...usualSettings, figuresByPerson: true })
  append(of, null, addDays(of.today, -2_000), [...people, ...types, settings])
}

const targetsOf = ({ repairs }: LargeCar): readonly WorkTarget[] =>
  GATES.flatMap((gate) => repairs.map((repairId): WorkTarget => ({ kind: 'gate', repairId, gate })))

/** The car with its repairs and its accepted estimate. */
function bringIn(car: LargeCar, { random }: Filling): readonly NewFact[] {
  const { carId, visitId, repairs } = car
  const index = Number(carId.slice('car-number-'.length))
  const lines = targetsOf(car).map((target, line): EstimateLine => {
    const likely = 0.5 + Math.round(random.next() * 14) / 4
    const points = { shortest: likely / 2, likely, longest: likely * 2.5 }
    return {
      lineId: lineIdSchema.parse(`line-${index}-${line}`),
      target,
      hours: points,
      agreed: likely,
      payer: 'owner',
    }
  })
  const answer = { how: 'letter', note: '' } as const
  const lineIds = lines.map(({ lineId }) => lineId)
  return [
    fact('carAdded', { carId, shellNumber: `L-${index}`, name: `Car ${index}`, body: 'saloon', year: 1964 }),
    fact('visitOpened', {
      visitId,
      kind: 'agreed',
      ownerId: owner,
      insurerId: null,
      status: 'in work',
      promised: null,
      priority: 1,
      charge: { by: 'hour' },
    }),
    ...repairs.map((repairId, repair) =>
      fact('repairAdded', {
        repairId,
        type: { typeId: typeOf(repair), version: 1 },
        plan: planOf(repair),
        payer: 'owner',
      }),
    ),
    fact('estimateSet', { visitId, lines }),
    fact('estimateAccepted', { visitId, payer: 'owner', lineIds, costIds: [], ...answer }),
  ]
}

const planOf = (index: number): RepairPlan =>
  repairPlan(`Repair ${index}`, {
    zone: { side: index % 2 === 0 ? 'left' : 'right', place: PLACES[index % PLACES.length] ?? 'rear' },
  })

function takePlan(of: Filling, batch: readonly LargeCar[], monday: string, index: number): void {
  const { workshop } = of
  const planId = planIdSchema.parse(`plan-taken-${index}`)
  const plan: Plan = {
    madeAt: momentOn(monday, 8),
    work: batch.flatMap((car) => plannedWork(of, car, monday)),
    stays: [],
    moves: [],
    cars: [],
    faults: [],
    score: { latenessHours: 0, moves: 0, end: momentOn(monday, 8), changes: 0 },
  }
  keepPlan(workshop.db, { planId, plan, why: 'proposal', cause: '', revision: 1 }, momentOn(monday, 8))
  const sha256 = workshop.db.writer.sqlite
    .prepare(`SELECT sha256 FROM kept_plan WHERE plan_id = ?`)
    .pluck()
    .get(planId) as string
  workshop.db.writer.sqlite.prepare(`UPDATE kept_plan SET why = 'taken' WHERE plan_id = ?`).run(planId)
  append(of, null, monday, [fact('planTaken', { planId, sha256, cause: '', cars: [] })])
}

function plannedWork({ people }: Filling, car: LargeCar, monday: string): Plan['work'] {
  const targets = targetsOf(car)
  return targets.map((target, index) => {
    const date = workingDay(monday, Math.floor((index * WORKING_DAYS) / targets.length))
    return {
      carId: car.carId,
      visitId: car.visitId,
      target,
      start: momentOn(date, 13),
      finish: momentOn(workingDay(date, 1), 10),
      people: [people[index % people.length] as PersonId],
      bayId: null,
      hours: 2,
      begun: false,
      pinned: { people: false, day: false },
      why: { reason: 'order', words: '' },
    }
  })
}

/** Day after day: entries on the gates that are due, some of them rework, and the gates passed. */
function work(of: Filling, car: LargeCar, monday: string, isInWork: boolean): void {
  const { size, random } = of
  const targets = targetsOf(car)
  const days = isInWork ? WORKING_DAYS / 2 : WORKING_DAYS
  const atEnd = isInWork ? targets.length / 2 : targets.length
  let [logged, passed] = [0, 0]
  for (let day = 0; day < days; day += 1) {
    const date = workingDay(monday, day)
    const facts: NewFact[] = []
    const until = Math.floor(((day + 1) * atEnd) / days)
    const entries = Math.floor(((day + 1) * size.entriesPerCar) / days)
    for (; logged < entries; logged += 1) {
      const target = targets[Math.min(until, targets.length - 1, passed + random.between(0, 2))] as WorkTarget
      facts.push(logTime(car, of, target, date, logged, passed))
    }
    for (; passed < until; passed += 1) facts.push(passGate(targets[passed] as WorkTarget, of))
    if (day === 5) facts.push(...vary(car, targets.at(-1) as WorkTarget))
    append(of, car, date, facts)
  }
  if (isInWork) return
  const status = { visitId: car.visitId, status: 'delivered', reason: '' } as const
  append(of, car, workingDay(monday, days), [fact('visitStatusSet', status)])
}

function logTime(
  { carId, repairs }: LargeCar,
  { random, people }: Filling,
  target: WorkTarget,
  date: string,
  index: number,
  passed: number,
): NewFact {
  const isRework = passed > repairs.length && random.between(1, 16) === 1
  const on: WorkTarget = isRework
    ? { kind: 'gate', repairId: repairs[0] as RepairId, gate: 'opened' }
    : target
  const start = momentOn(date, 8 + random.between(0, 5))
  return fact('timeLogged', {
    entryId: entryIdSchema.parse(`entry-${carId}-${index}`),
    personId: random.pick(people),
    on: { kind: 'work', targets: [on] },
    hotWork: false,
    cause: isRework ? random.pick(REWORK_CAUSES) : null,
    time: {
      kind: 'span',
      start: new Date(start).toISOString(),
      end: new Date(start + (0.25 + random.next() * 1.5) * MS_PER_HOUR).toISOString(),
    },
    shares: null,
    note: '',
    watchMinutes: null,
  })
}

function passGate(target: WorkTarget, { people, random }: Filling): NewFact {
  if (target.kind !== 'gate') throw new Error('There are no tasks in this workshop.')
  return fact('gatePassed', {
    repairId: target.repairId,
    gate: target.gate,
    did: [random.pick(people)],
    second: null,
    asked: noAsks,
    evidence: { attachments: [], readings: [] },
    released: [],
    coat: target.gate === 'painted' ? 'protective' : null,
    note: '',
  })
}

function vary({ carId, visitId }: LargeCar, target: WorkTarget): readonly NewFact[] {
  const variationId = variationIdSchema.parse(`variation-${carId}`)
  const words = { title: 'More to do', why: 'It was found.', ifNot: '' }
  const lines = [{ target, hours: 3, low: 2, high: 5 }]
  return [
    fact('variationRaised', {
      variationId,
      visitId,
      payer: 'owner',
      ...words,
      findings: [],
      attachments: [],
      lines,
      costs: [],
    }),
    fact('variationDecided', { variationId, decision: 'accepted', changed: null, how: 'call', note: '' }),
  ]
}

function startClock(car: LargeCar, personId: PersonId, now: number): NewFact {
  const targets = targetsOf(car)
  return fact('clockStarted', {
    entryId: entryIdSchema.parse(`entry-${car.carId}-running`),
    personId,
    on: { kind: 'work', targets: [targets[targets.length / 2 + 1] as WorkTarget] },
    hotWork: false,
    cause: null,
    start: new Date(now - MS_PER_HOUR).toISOString(),
  })
}

function append({ workshop }: Filling, car: LargeCar | null, date: string, facts: readonly NewFact[]): void {
  const at = momentOn(date, 15)
  const instant = new Date(at).toISOString()
  const said = { by: manager, device: desk, happened: instant, made: instant, now: at }
  const commandId = commandIdSchema.parse(`command-${date}-${car?.carId ?? 'workshop'}`)
  appendFacts(workshop.db.writer, facts, {
    ...said,
    commandId,
    carId: car?.carId ?? null,
    visitId: car?.visitId ?? null,
  })
}

const instants = new Map<string, number>()

function momentOn(date: string, hour: number): number {
  const known = instants.get(date)
  if (known !== undefined) return known + hour * MS_PER_HOUR
  const midnight = localToInstant(date, '00:00', zone)
  instants.set(date, midnight)
  return midnight + hour * MS_PER_HOUR
}

/** So many working days, Monday to Friday, after a date. */
function workingDay(from: string, days: number): string {
  let date = addDays(from, Math.floor(days / 5) * 7)
  for (let left = days % 5; left > 0; left -= 1) {
    date = addDays(date, 1)
    while (weekdayNumber(date) > 5) date = addDays(date, 1)
  }
  while (weekdayNumber(date) > 5) date = addDays(date, 1)
  return date
}
