import type { Moment } from '../domain/car.ts'
import { causeWords } from '../domain/views/plan-cause.ts'
import type { Database, ReadDatabase } from './database.ts'
import { readFacts } from './journal.ts'
import { lastKeptPlan } from './last-kept-plan.ts'
import { keepPlan, type PlanToKeep } from './plans.ts'
import { readAllCars, readWorkshop } from './reads.ts'

/** A plan and what it was made from. */
export type MadePlan = Pick<PlanToKeep, 'planId' | 'plan' | 'revision'>

/** Keeps a plan with why it differs from the one that was kept last: what came in between. Otherwise as {@link keepPlan}. */
export function keepWithCause(db: Database, made: MadePlan, why: PlanToKeep['why'], now: Moment): void {
  const last = lastKeptPlan(db)
  const cause = last === null ? '' : causeBetween(db, { after: last.revision, upTo: made.revision }, now)
  keepPlan(db, { ...made, why, cause }, now)
}

function causeBetween(
  db: ReadDatabase,
  between: { readonly after: number; readonly upTo: number },
  now: Moment,
): string {
  const workshop = readWorkshop(db)
  const own = workshop.revision > between.after ? [{ carName: null, facts: readFacts(db, null) }] : []
  const cars = readAllCars(db)
    .filter(({ revision }) => revision > between.after)
    .map((car) => ({ carName: car.name, facts: readFacts(db, car.id) }))
  return causeWords([...own, ...cars], between, { now, workshop })
}
