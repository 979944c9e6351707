import { and, desc, eq, lt, ne, or, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { CarId, PlanId } from '../domain/ids.ts'
import type { PlannedFinish } from '../domain/report/week-expected.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import { readPlan } from './plans.ts'
import { keptPlan, keptPlanCar } from './schema.ts'

/**
 * What the plan that was kept last before a moment says of a car's finish. A plan of a day's end is kept in the first
 * minutes of a later day, so that those kept before `dayEnds` speak of the time before too. Null where no plan was kept
 * yet, and where the car is not in it.
 */
export function keptFinish(
  db: ReadDatabase,
  carId: CarId,
  { before, dayEnds }: { readonly before: Moment; readonly dayEnds: Moment },
): PlannedFinish | null {
  const { last, car } = queries(db.reader)
  const plan = last.get({ before, dayEnds })
  const finish = plan && car.get({ planId: plan.planId, carId })
  if (!plan || !finish) return null
  const { revision } = plan
  const { finish50: early, finish80: late } = finish
  return early !== null && late !== null
    ? { revision, range: { early, late }, faults: [] }
    : { revision, range: null, faults: faultsOf(db, plan.planId, carId) }
}

/** The plan itself is read only where a date is missing: that takes tens of milliseconds. */
function faultsOf(db: ReadDatabase, planId: PlanId, carId: CarId): PlannedFinish['faults'] {
  const faults = readPlan(db, planId)?.faults ?? []
  return faults.filter((fault) => fault.carId === carId).map(({ code }) => code)
}

const queries = perHandle(({ orm }) => ({
  last: orm
    .select({ planId: keptPlan.planId, revision: keptPlan.revision })
    .from(keptPlan)
    .where(
      and(
        ne(keptPlan.why, 'proposal'),
        or(
          lt(keptPlan.keptAt, sql.placeholder('before')),
          and(eq(keptPlan.why, 'day end'), lt(keptPlan.keptAt, sql.placeholder('dayEnds'))),
        ),
      ),
    )
    .orderBy(desc(keptPlan.keptAt), desc(sql`rowid`))
    .limit(1)
    .prepare(),
  car: orm
    .select({ finish50: keptPlanCar.finish50, finish80: keptPlanCar.finish80 })
    .from(keptPlanCar)
    .where(
      and(eq(keptPlanCar.planId, sql.placeholder('planId')), eq(keptPlanCar.carId, sql.placeholder('carId'))),
    )
    .prepare(),
}))
