import type { Fact, FactOf } from '../domain/facts.ts'
import type { CarId, PlanId, VisitId } from '../domain/ids.ts'
import type { Plan } from '../domain/plan/plan.ts'
import { workshopFromFacts } from '../domain/state/workshop-state.ts'
import { type DayShare, planShares } from '../domain/value/planned-value.ts'
import { targetKey } from '../domain/value/target.ts'
import { perHandle, type Handle } from './handle.ts'
import { contentToPlan, planRowOn } from './kept-plans.ts'

/** A plan that was taken. */
export interface TakenPlan {
  /** Journal number of the fact. */
  readonly number: number
  readonly planId: PlanId
  /** Whether it is in force for what was authorised by that fact, or was taken later. */
  readonly isFor: (accepted: number) => boolean
}

/** An amount of one gate or task that a plan is sought for. */
export interface SoughtAmount {
  readonly carId: CarId
  readonly visitId: VisitId
  /** Key of the gate or task. */
  readonly target: string
  readonly accepted: number
}

export interface FoundPlan<T> {
  readonly amount: T
  readonly planId: PlanId
  readonly days: readonly DayShare[]
}

/** @param facts the workshop's, in journal order */
export function takenPlans(facts: readonly Fact[]): readonly TakenPlan[] {
  const taken = facts.filter((fact) => fact.kind === 'planTaken')
  return taken.map(({ number, payload: { planId } }, index) => {
    const next = taken[index + 1]
    return { number, planId, isFor: (accepted) => next === undefined || next.number > accepted }
  })
}

/**
 * For each amount the plan that was in force when it was authorised, or where that one has no work of its gate or task, the
 * first one taken afterwards that has. Days are those of the workshop's calendars when the plan was taken, so that later
 * absences change nothing. Amounts without such a plan are left out. Reads no more plans than it must.
 */
export function findPlans<T extends SoughtAmount>(
  handle: Handle,
  amounts: readonly T[],
  plans: readonly TakenPlan[],
  facts: readonly Fact[],
): readonly FoundPlan<T>[] {
  const found: FoundPlan<T>[] = []
  let open = amounts
  for (const taken of plans) {
    const sought = open.filter(({ accepted }) => taken.isFor(accepted))
    if (sought.length === 0) continue
    const inPlan = amountsInPlan(handle, sought, taken, facts)
    found.push(...inPlan)
    const done = new Set<SoughtAmount>(inPlan.map(({ amount }) => amount))
    open = open.filter((amount) => !done.has(amount))
  }
  return found
}

function amountsInPlan<T extends SoughtAmount>(
  handle: Handle,
  sought: readonly T[],
  { number, planId }: TakenPlan,
  facts: readonly Fact[],
): readonly FoundPlan<T>[] {
  const work = workByAmount(takenPlan(handle, planId, facts))
  const inPlan = sought.filter((amount) => work.has(amountKey(amount)))
  if (inPlan.length === 0) return []
  const workshop = workshopFromFacts(facts.filter((fact) => fact.number <= number))
  return inPlan.map((amount) => {
    const shares = planShares(work.get(amountKey(amount)) ?? [], workshop)
    return { amount, planId, days: shares.get(amount.target) ?? [] }
  })
}

const workByAmount = (plan: Plan | null): ReadonlyMap<string, Plan['work']> =>
  Map.groupBy(plan?.work ?? [], ({ carId, visitId, target }) =>
    amountKey({ carId, visitId, target: targetKey(target) }),
  )

const amountKey = ({ carId, visitId, target }: Omit<SoughtAmount, 'accepted'>): string =>
  `${carId} ${visitId} ${target}`

/** Null when what is kept is not what was taken: `check` names those. */
function takenPlan(handle: Handle, planId: PlanId, facts: readonly Fact[]): Plan | null {
  const last = lastRead(handle)
  if (last.planId === planId) return last.plan
  const taken = facts.find((fact): fact is FactOf<'planTaken'> => isTaking(fact, planId))
  const row = planRowOn(handle, planId)
  const plan = row && row.sha256 === taken?.payload.sha256 ? contentToPlan(row) : null
  Object.assign(last, { planId, plan })
  return plan
}

const isTaking = (fact: Fact, planId: PlanId): boolean =>
  fact.kind === 'planTaken' && fact.payload.planId === planId

/** Reading a plan takes tens of milliseconds, and one acceptance after the other asks for the plan in force. */
const lastRead = perHandle((): { planId: PlanId | null; plan: Plan | null } => ({ planId: null, plan: null }))
