import { appendFacts } from '../../db/append-facts.ts'
import { inTransaction } from '../../db/handle.ts'
import { keepPlan } from '../../db/plans.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { fact, type NewFact } from '../../domain/facts.ts'
import type { WorkTarget } from '../../domain/facts/shapes.ts'
import { commandIdSchema, personIdSchema, planIdSchema, type PersonId } from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { usualSettings } from '../../domain/usual-workshop.ts'
import { repairPlan } from '../support/plans.ts'
import { createRandom } from '../support/random.ts'
import { desk, manager, painter, welder, type Workshop } from '../support/workshop.ts'
import {
  bringIn,
  largeCar,
  type LargeCar,
  logTime,
  momentOn,
  passGate,
  plannedWork,
  startClock,
  targetsOf,
  type Team,
  typeOf,
  TYPES,
  vary,
  workingDay,
  WORKING_DAYS,
} from './large-car.ts'

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
/** The last car came in so long ago that it is half way today. */
const DAYS_TO_HALF = 42

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
  const cars = Array.from({ length: size.cars }, (_, index) => largeCar(index, size.repairsPerCar))
  const batches = Array.from({ length: Math.ceil(cars.length / CARS_PER_PLAN) }, (_, index) =>
    cars.slice(index * CARS_PER_PLAN, (index + 1) * CARS_PER_PLAN),
  )
  for (const [index, batch] of batches.entries()) {
    const ago = (batches.length - 1 - index) * DAYS_BETWEEN_PLANS + DAYS_TO_HALF
    const monday = addDays(of.today, -ago)
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

interface Filling extends Team {
  readonly workshop: Workshop
  readonly size: LargeSize
  readonly today: string
}

function addPeopleAndTypes(of: Filling): void {
  const people = of.people.slice(2).map((personId) =>
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
