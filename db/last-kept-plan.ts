import { desc, eq, ne, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { PlanId } from '../domain/ids.ts'
import type { CarFinish } from '../domain/plan/plan-changes.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import { keptPlan, keptPlanCar } from './schema.ts'

export interface LastKeptPlan {
  readonly keptAt: Moment
  /** Number of the last line of the journal that it was made from. */
  readonly revision: number
  readonly cars: readonly CarFinish[]
}

/** The plan that was kept last, whyever; proposals that nobody took do not count. Null before a first one. */
export function lastKeptPlan(db: ReadDatabase): LastKeptPlan | null {
  const { last, cars } = queries(db.reader)
  const row = last.get()
  if (!row) return null
  return { keptAt: row.keptAt, revision: row.revision, cars: cars.all({ planId: row.planId }) }
}

/** When the last plan of a day's end was kept; null before a first one. */
export function lastDayEnd(db: ReadDatabase): Moment | null {
  return queries(db.reader).lastDayEnd.get()?.keptAt ?? null
}

/** Whether a plan is kept under this id, proposals included. */
export function isPlanKept(db: ReadDatabase, planId: PlanId): boolean {
  return queries(db.reader).find.get({ planId }) !== undefined
}

const queries = perHandle(({ orm }) => ({
  last: orm
    .select({ planId: keptPlan.planId, keptAt: keptPlan.keptAt, revision: keptPlan.revision })
    .from(keptPlan)
    .where(ne(keptPlan.why, 'proposal'))
    .orderBy(desc(keptPlan.keptAt), desc(sql`rowid`))
    .limit(1)
    .prepare(),
  cars: orm
    .select({ carId: keptPlanCar.carId, finish50: keptPlanCar.finish50, finish80: keptPlanCar.finish80 })
    .from(keptPlanCar)
    .where(eq(keptPlanCar.planId, sql.placeholder('planId')))
    .prepare(),
  find: orm
    .select({ planId: keptPlan.planId })
    .from(keptPlan)
    .where(eq(keptPlan.planId, sql.placeholder('planId')))
    .prepare(),
  lastDayEnd: orm
    .select({ keptAt: keptPlan.keptAt })
    .from(keptPlan)
    .where(eq(keptPlan.why, 'day end'))
    .orderBy(desc(keptPlan.keptAt))
    .limit(1)
    .prepare(),
}))
