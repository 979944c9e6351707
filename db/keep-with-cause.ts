import type { Moment } from '../domain/car.ts'
import { movedCars } from '../domain/plan/plan-changes.ts'
import { causeWords } from '../domain/views/plan-cause.ts'
import type { Database, ReadDatabase } from './database.ts'
import { readFacts } from './journal.ts'
import { lastKeptPlan, type LastKeptPlan } from './last-kept-plan.ts'
import { keepPlan, type PlanToKeep } from './plans.ts'
import { carsChangedSince, readWorkshop } from './reads.ts'

/** A plan and what it was made from. */
export type MadePlan = Pick<PlanToKeep, 'planId' | 'plan' | 'revision'>

/** Keeps a plan with why it differs from the one that was kept last: what came in between. Otherwise as {@link keepPlan}. */
export function keepWithCause(db: Database, made: MadePlan, why: PlanToKeep['why'], now: Moment): void {
  const last = lastKeptPlan(db)
  keepPlan(db, { ...made, why, cause: last === null ? '' : causeSince(db, last, made, now) }, now)
}

function causeSince(db: ReadDatabase, last: LastKeptPlan, { plan, revision }: MadePlan, now: Moment): string {
  const between = { after: last.revision, upTo: revision }
  const moved = new Set(movedCars(last.cars, plan.cars))
  const workshop = readWorkshop(db)
  const own =
    workshop.revision > between.after ? [{ carName: null, hasMoved: true, facts: readFacts(db, null) }] : []
  const cars = carsChangedSince(db, between.after).map(({ id, name }) => ({
    carName: name,
    hasMoved: moved.has(id),
    facts: readFacts(db, id),
  }))
  return causeWords([...own, ...cars], between, { now, workshop })
}
