import { randomUUID } from 'node:crypto'
import { tryToStore } from '../../db/database-problem.ts'
import type { Database } from '../../db/database.ts'
import { executeCommand } from '../../db/execute-command.ts'
import { keepWithCause, type MadePlan } from '../../db/keep-with-cause.ts'
import type { PlanInForce } from '../../db/plans.ts'
import { lastKeptPlan } from '../../db/last-kept-plan.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { Moment } from '../../domain/car.ts'
import { commandIdSchema, planIdSchema, type PlanId } from '../../domain/ids.ts'
import { frozenUntil } from '../../domain/plan/frozen-days.ts'
import { changedWork, isSamePlan, isWithinFrozenDays, movedCars } from '../../domain/plan/plan-changes.ts'
import type { Result } from '../../domain/refusal.ts'
import { instantToIso } from '../../domain/time/zone.ts'

/** An id that no plan has had. */
export const newPlanId = (): PlanId => planIdSchema.parse(randomUUID())

/** Keeps a plan so that it can be taken. Refused when the disk is full or fails. */
export function keepProposal(db: Database, made: MadePlan, now: Moment): Result<true> {
  return tryToStore(() => keepWithCause(db, made, 'proposal', now))
}

/** Keeps how things stood at the end of a day, under an id of its own: a plan that is taken leaves its place in the history. */
export function keepDayEnd(db: Database, made: MadePlan, now: Moment): void {
  keepWithCause(db, { ...made, planId: newPlanId() }, 'day end', now)
}

/** Keeps a plan that moves the finish of a car by a day or more against the one that was kept last. */
export function keepIfMoved(db: Database, made: MadePlan, now: Moment): void {
  const last = lastKeptPlan(db)
  if (last === null || movedCars(last.cars, made.plan.cars).length === 0) return
  keepWithCause(db, { ...made, planId: newPlanId() }, 'moved', now)
}

/**
 * Takes a plan without asking, where the workshop's settings say so and it changes nothing within the frozen days. The
 * first plan is the manager's to take.
 *
 * @returns whether it was taken
 */
export function takeByItself(
  db: Database,
  made: MadePlan,
  inForce: PlanInForce | null,
  now: Moment,
): boolean {
  const workshop = readWorkshop(db)
  const { planning, zone } = workshop
  if (!planning.takeByItself || inForce === null || isSamePlan(inForce.plan, made.plan, zone)) return false
  const frozenEnd = frozenUntil(workshop, now)
  const changes = changedWork(inForce.plan, made.plan, zone)
  if (changes.some((change) => isWithinFrozenDays(change, now, frozenEnd))) return false
  keepWithCause(db, made, 'proposal', now)
  const answer = executeCommand(db, {
    command: {
      id: commandIdSchema.parse(randomUUID()),
      kind: 'takePlan',
      carId: null,
      seen: null,
      by: null,
      code: null,
      second: null,
      happened: null,
      made: instantToIso(now, zone),
      payload: { planId: made.planId },
    },
    device: null,
    second: null,
    now,
  })
  if (!answer.ok) throw new Error(`The plan could not be taken by itself: ${answer.refusal.message}`)
  return true
}
