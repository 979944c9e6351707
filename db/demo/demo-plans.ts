import type { Moment } from '../../domain/car.ts'
import { hiddenMultiples } from '../../domain/estimate/hidden-multiples.ts'
import { commandIdSchema, planIdSchema } from '../../domain/ids.ts'
import { makePlanAtOnce } from '../../domain/plan/make-plan.ts'
import { USUAL_BUDGET, type PlanBudget } from '../../domain/plan/plan-budget.ts'
import { instantToIso } from '../../domain/time/zone.ts'
import { contactBook } from '../contacts.ts'
import type { Database } from '../database.ts'
import { executeCommand } from '../execute-command.ts'
import { readEstimateHistory } from '../finished-repairs.ts'
import { lastNumber } from '../journal.ts'
import { keepWithCause } from '../keep-with-cause.ts'
import { planInForce } from '../plans.ts'
import { readAllCars, readWorkshop } from '../reads.ts'
import { demoPeople } from './demo-people.ts'
import type { WorkDays } from './work-days.ts'

/** A second for each plan. */
const BUDGET: PlanBudget = { ...USUAL_BUDGET, placements: 256_000 }

/** A plan that is kept while the demo is told. */
export interface DemoPlan {
  readonly at: Moment
  readonly isTaken: boolean
}

/** Taken before work begins on two mornings, and kept at the end of the days since. */
export function demoPlans(days: WorkDays): readonly DemoPlan[] {
  const taken = [-8, -2].map((day) => ({ at: days.at(day, '07:40'), isTaken: true }))
  const ended = [-5, -1].map((day) => ({ at: days.at(day, '24:00'), isTaken: false }))
  return [...taken, ...ended].toSorted((a, b) => a.at - b.at)
}

/**
 * Plans the workshop as it stands, inside the transaction that fills the demo, and keeps the plan.
 *
 * @throws Error when it is refused: a demo keeps the rules
 */
export function keepDemoPlan(database: Database, { at, isTaken }: DemoPlan): void {
  // What the transaction has recorded so far is seen by the writer only.
  const db = { ...database, reader: database.writer }
  const workshop = readWorkshop(db)
  const cars = readAllCars(db)
  const input = {
    workshop,
    cars,
    nameOf: contactBook(db).nameOf,
    now: at,
    inForce: planInForce(db)?.plan ?? null,
    hidden: hiddenMultiples(cars, new Set(), readEstimateHistory(db), { at, workshop }),
  }
  const planId = planIdSchema.parse(`demo-plan-${at}`)
  const plan = makePlanAtOnce(input, BUDGET)
  keepWithCause(db, { planId, plan, revision: lastNumber(db) }, isTaken ? 'proposal' : 'day end', at)
  if (!isTaken) return
  const answer = executeCommand(db, {
    command: {
      id: commandIdSchema.parse(`demo-take-${at}`),
      kind: 'takePlan',
      carId: null,
      seen: null,
      by: demoPeople.maren.id,
      code: null,
      second: null,
      happened: null,
      made: instantToIso(at, workshop.zone),
      payload: { planId },
    },
    device: null,
    second: null,
    now: at,
  })
  if (!answer.ok) throw new Error(`The demo's plan was refused: ${answer.refusal.message}`)
}
