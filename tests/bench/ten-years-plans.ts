import type { Database } from '../../db/database.ts'
import { lastLine } from '../../db/chains.ts'
import { planToContent } from '../../db/kept-plans.ts'
import { keptPlan, keptPlanCar } from '../../db/schema.ts'
import { fact, type NewFact } from '../../domain/facts.ts'
import { planIdSchema, type PersonId, type PlanId } from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { MS_PER_HOUR } from '../../domain/time/zone.ts'
import { momentOn, type TenYearsCar } from './ten-years-car.ts'
import { workingDay } from './large-car.ts'

/** What a plan lays out of each car: the gates that come next. */
const GATES_PLANNED = 40

/** Every Monday the plan of the week is taken; its content is kept as the planner would keep it. */
export function takeWeekPlan(
  db: Database,
  cars: readonly TenYearsCar[],
  people: readonly PersonId[],
  date: string,
  append: (facts: readonly NewFact[]) => void,
): void {
  const planId = planIdSchema.parse(`plan-${date}`)
  const plan = weekPlan(cars, people, date)
  const { sha256 } = keep(db, plan, { planId, why: 'taken', date })
  const finishes = plan.cars.map(({ carId, finish50, finish80 }) => ({ carId, finish50, finish80 }))
  append([fact('planTaken', { planId, sha256, cause: '', cars: finishes })])
}

/** The plan of a day's end: its cars' finishes are asked for later, its work is not. */
export function keepDayEnd(db: Database, cars: readonly TenYearsCar[], date: string): void {
  const plan = { ...weekPlan(cars, [], date), work: [] }
  keep(db, plan, { planId: planIdSchema.parse(`plan-end-${date}`), why: 'day end', date })
}

interface KeptAs {
  readonly planId: PlanId
  readonly why: 'taken' | 'day end'
  readonly date: string
}

function keep({ writer }: Database, plan: Plan, { planId, why, date }: KeptAs): { readonly sha256: string } {
  const content = planToContent(plan)
  const keptAt = momentOn(date, why === 'taken' ? 15 : 18)
  const row = { planId, madeAt: plan.madeAt, keptAt, why, cause: 'a gate took longer', ...content }
  writer.orm
    .insert(keptPlan)
    .values({ ...row, revision: lastLine(writer)?.number ?? 0 })
    .run()
  for (const { carId, finish50, finish80 } of plan.cars)
    writer.orm.insert(keptPlanCar).values({ planId, carId, finish50, finish80 }).run()
  return content
}

function weekPlan(cars: readonly TenYearsCar[], people: readonly PersonId[], date: string): Plan {
  const finish = (car: TenYearsCar, days: number): number =>
    momentOn(addDays(date, Math.ceil((car.targets.length - car.passed) / 1.1) + days), 16)
  return {
    madeAt: momentOn(date, 8),
    work: people.length === 0 ? [] : cars.flatMap((car) => plannedWork(car, people, date)),
    stays: [],
    moves: [],
    cars: cars.map((car) => ({
      carId: car.carId,
      visitId: car.visitId,
      promised: null,
      priority: 1 + (car.index % 3),
      finish: finish(car, 0),
      finish50: finish(car, 2),
      finish80: finish(car, 10),
      drivers: [],
    })),
    faults: [],
    score: { latenessHours: 0, moves: 0, end: momentOn(addDays(date, 200), 16), changes: 0 },
  }
}

function plannedWork(car: TenYearsCar, people: readonly PersonId[], date: string): Plan['work'] {
  return car.targets.slice(car.passed, car.passed + GATES_PLANNED).map((target, index) => {
    const start = momentOn(workingDay(date, Math.floor(index / 2)), index % 2 === 0 ? 8 : 13)
    return {
      carId: car.carId,
      visitId: car.visitId,
      target,
      start,
      finish: start + 2 * MS_PER_HOUR,
      people: [people[(car.index + index) % people.length] as PersonId],
      bayId: null,
      hours: 2,
      begun: false,
      pinned: { people: false, day: false },
      why: { reason: 'order' as const, words: '' },
    }
  })
}
