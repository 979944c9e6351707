import { and, desc, eq, ne, notInArray, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { CarId, PersonId, PlanId } from '../domain/ids.ts'
import type { Plan } from '../domain/plan/plan.ts'
import type { PlanHistoryRow } from '../domain/views/plan-view-shapes.ts'
import type { Database, ReadDatabase } from './database.ts'
import { inTransaction, perHandle } from './handle.ts'
import { contentToPlan, planRowOn, planToContent } from './kept-plans.ts'
import { placeholders } from './placeholders.ts'
import { readWorkshop } from './reads.ts'
import { keptPlan, keptPlanCar, type WhyKept } from './schema.ts'

export interface PlanToKeep {
  readonly planId: PlanId
  readonly plan: Plan
  readonly why: Exclude<WhyKept, 'taken'>
  /** What made it differ from the one before. Names no people: a fact carries it when the plan is taken. */
  readonly cause: string
  /** Number of the last line of the journal that it was made from. */
  readonly revision: number
}

export interface PlanInForce {
  readonly planId: PlanId
  readonly plan: Plan
  readonly takenAt: Moment
  /** Null when it was taken by itself. */
  readonly takenBy: PersonId | null
}

/** Of the proposals that nobody took the last ones stay: a screen may still show one that is not the newest. */
export const PROPOSALS_KEPT = 5

/**
 * Keeps a plan under an id of its own, with the finishes of its cars.
 *
 * @param now when it is kept, epoch milliseconds
 * @throws SqliteError (constraint) when a plan is kept under this id already
 */
export function keepPlan(db: Database, { plan, ...kept }: PlanToKeep, now: Moment): void {
  const { planId } = kept
  const row = { ...kept, ...planToContent(plan), madeAt: plan.madeAt, keptAt: now }
  const { add, addCar, thin } = queries(db.writer)
  inTransaction(db.writer, () => {
    add.run(row)
    for (const { carId, finish50, finish80 } of plan.cars) addCar.run({ planId, carId, finish50, finish80 })
    thin.run()
  })
}

/** A kept plan; null when none is kept under this id, or what is kept is not what it was: `check` names those. */
export function readPlan(db: ReadDatabase, planId: PlanId): Plan | null {
  const row = planRowOn(db.reader, planId)
  return row && contentToPlan(row)
}

/**
 * The plan that was taken last; null before a first one, and when what is kept of it is not what was taken. Its whole
 * content is read and parsed, so keep it as long as `planTaken` of the workshop names the same plan.
 */
export function planInForce(db: ReadDatabase): PlanInForce | null {
  const taken = readWorkshop(db).planTaken
  if (!taken) return null
  const row = planRowOn(db.reader, taken.planId)
  const plan = row?.sha256 === taken.sha256 ? contentToPlan(row) : null
  return plan && { planId: taken.planId, plan, takenAt: taken.at, takenBy: taken.by }
}

/** How a car's finish went from kept plan to kept plan, the latest first; proposals that nobody took are left out. */
export function planHistory(db: ReadDatabase, carId: CarId): readonly PlanHistoryRow[] {
  // The statement leaves out what the shape does not allow for.
  return queries(db.reader).history.all({ carId }) as readonly PlanHistoryRow[]
}

const queries = perHandle(({ orm }) => {
  const isProposal = eq(keptPlan.why, 'proposal')
  const lastProposals = orm
    .select({ planId: keptPlan.planId })
    .from(keptPlan)
    .where(isProposal)
    .orderBy(desc(keptPlan.keptAt), sql`rowid DESC`)
    .limit(PROPOSALS_KEPT)
  return {
    add: orm.insert(keptPlan).values(placeholders(keptPlan)).prepare(),
    addCar: orm.insert(keptPlanCar).values(placeholders(keptPlanCar)).prepare(),
    thin: orm
      .delete(keptPlan)
      .where(and(isProposal, notInArray(keptPlan.planId, lastProposals)))
      .prepare(),
    history: orm
      .select({
        planId: keptPlan.planId,
        keptAt: keptPlan.keptAt,
        why: keptPlan.why,
        cause: keptPlan.cause,
        finish50: keptPlanCar.finish50,
        finish80: keptPlanCar.finish80,
      })
      .from(keptPlanCar)
      .innerJoin(keptPlan, eq(keptPlan.planId, keptPlanCar.planId))
      .where(and(eq(keptPlanCar.carId, sql.placeholder('carId')), ne(keptPlan.why, 'proposal')))
      .orderBy(desc(keptPlan.keptAt), sql`kept_plan.rowid DESC`)
      .prepare(),
  }
})
