import { isDeepStrictEqual } from 'node:util'
import { eq } from 'drizzle-orm'
import type { PlanId } from '../domain/ids.ts'
import type { Plan } from '../domain/plan/plan.ts'
import { factsAfter } from './chains.ts'
import { fault, RESTORE, type CheckFinding } from './check-finding.ts'
import type { Handle } from './handle.ts'
import { contentToPlan, planRowOn, type KeptPlanRow } from './kept-plans.ts'
import { keptPlan, keptPlanCar, WORKSHOP_CHAIN } from './schema.ts'

/** Every kept plan against its digest and its finishes, and every plan that was taken against what the journal says of it. */
export function checkPlans(reader: Handle): readonly CheckFinding[] {
  const taken = takenPlans(reader)
  const kept = reader.orm.select({ planId: keptPlan.planId }).from(keptPlan).all()
  const planIds = new Set([...kept.map(({ planId }) => planId), ...taken.keys()])
  return [...planIds].flatMap((planId) =>
    problemsOf(reader, planId, taken.get(planId) ?? null).map((problem) =>
      fault(`The plan ${planId} ${problem}.`, CHANGED, RESTORE),
    ),
  )
}

/** The digests that the journal names. */
function takenPlans(reader: Handle): ReadonlyMap<PlanId, string> {
  const facts = factsAfter(reader, WORKSHOP_CHAIN, 0).filter((fact) => fact.kind === 'planTaken')
  return new Map(facts.map(({ payload }) => [payload.planId, payload.sha256]))
}

/** One plan at a time: a content is large. */
function problemsOf(reader: Handle, planId: PlanId, taken: string | null): readonly string[] {
  const row = planRowOn(reader, planId)
  if (!row) return ['was taken and is gone']
  const plan = contentToPlan(row)
  if (!plan) return ['is not what was kept']
  return [...takingProblems(row, taken), ...(hasItsFinishes(reader, row, plan) ? [] : ['has other finishes'])]
}

function takingProblems({ why, sha256 }: KeptPlanRow, taken: string | null): readonly string[] {
  if (taken === null) return why === 'taken' ? ['is kept as taken, and the journal does not say so'] : []
  if (why !== 'taken') return ['was taken and is not kept as such']
  return sha256 === taken ? [] : ['is not the one that was taken']
}

function hasItsFinishes({ orm }: Handle, { planId }: KeptPlanRow, plan: Plan): boolean {
  const finishes = orm.select().from(keptPlanCar).where(eq(keptPlanCar.planId, planId)).all()
  const due = plan.cars.map(({ carId, finish50, finish80 }) => ({ planId, carId, finish50, finish80 }))
  return isDeepStrictEqual(byCar(finishes), byCar(due))
}

function byCar<T extends { readonly carId: string }>(rows: readonly T[]): ReadonlyMap<string, T> {
  return new Map(rows.map((row) => [row.carId, { ...row }]))
}

const CHANGED =
  'What is kept of plans was changed, by hand or by a failing disk. The journal itself is not touched.'
