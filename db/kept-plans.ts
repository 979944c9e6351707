import type { Buffer } from 'node:buffer'
import { createHash } from 'node:crypto'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { eq, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { PlanToTake } from '../domain/commands/decide.ts'
import type { PlanId } from '../domain/ids.ts'
import { planSchema, type Plan } from '../domain/plan/plan.ts'
import { canonicalJson } from '../domain/text/canonical-json.ts'
import { parseJson } from '../domain/text/parse-json.ts'
import { perHandle, type Handle } from './handle.ts'
import { keptPlan } from './schema.ts'

export type KeptPlanRow = typeof keptPlan.$inferSelect
export type PlanContent = Pick<KeptPlanRow, 'content' | 'sha256'>

/** A plan as a row holds it, with the SHA-256 of its canonical JSON. */
export function planToContent(plan: Plan): PlanContent {
  const json = canonicalJson(plan)
  return { content: deflateRawSync(json), sha256: sha256Of(json) }
}

/** The plan that a row holds; null when its digest does not fit or it is no plan. */
export function contentToPlan({ content, sha256 }: PlanContent): Plan | null {
  const json = inflated(content)
  if (json === null || sha256Of(json) !== sha256) return null
  const parsed = planSchema.safeParse(parseJson(json))
  return parsed.success ? parsed.data : null
}

/** A kept plan as it lies there, unread; null when none is kept under this id. */
export function planRowOn(handle: Handle, planId: string): KeptPlanRow | null {
  return queries(handle).find.get({ planId }) ?? null
}

/** What `takePlan` is decided from; null when no plan is kept under this id. */
export function planToTake(handle: Handle, planId: string): PlanToTake | null {
  const row = planRowOn(handle, planId)
  if (!row) return null
  if (row.why === 'taken') return { state: 'taken' }
  const plan = contentToPlan(row)
  if (!plan) return { state: 'damaged' }
  const cars = plan.cars.map(({ carId, finish50, finish80 }) => ({ carId, finish50, finish80 }))
  return { state: 'kept', fact: { planId: row.planId, sha256: row.sha256, cause: row.cause, cars } }
}

/** Must run inside the transaction that records the fact. */
export function markTaken(writer: Handle, planId: PlanId, now: Moment): void {
  queries(writer).take.run({ planId, now })
}

function inflated(content: Buffer): string | null {
  try {
    return inflateRawSync(content).toString('utf8')
  } catch (error) {
    // Z_DATA_ERROR, Z_BUF_ERROR: the bytes were changed or cut.
    if (error instanceof Error && 'code' in error && String(error.code).startsWith('Z_')) return null
    throw error
  }
}

/** SHA-256 (FIPS 180-4) of text in UTF-8, lower-case hexadecimal. */
function sha256Of(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}

const queries = perHandle(({ orm }) => ({
  find: orm
    .select()
    .from(keptPlan)
    .where(eq(keptPlan.planId, sql.placeholder('planId')))
    .prepare(),
  take: orm
    .update(keptPlan)
    .set({ why: 'taken', keptAt: sql`${sql.placeholder('now')}` })
    .where(eq(keptPlan.planId, sql.placeholder('planId')))
    .prepare(),
}))
