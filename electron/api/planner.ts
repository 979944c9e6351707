import type { PlanInForce } from '../../db/plans.ts'
import type { DeviceId, PlanId } from '../../domain/ids.ts'
import type { Plan, WhatIf } from '../../domain/plan/plan.ts'
import type { Result } from '../../domain/refusal.ts'

/** What the planner would do now. */
export interface NewestPlan {
  readonly planId: PlanId
  readonly plan: Plan
}

/** The planner as the calls see it; the host gives it. */
export interface Planner {
  /** The newest plan, null before the first one; 'planning' while facts wait to be taken into another. */
  readonly status: () => { readonly state: 'planning' | 'settled'; readonly newest: NewestPlan | null }
  /** What people were given; null before a first plan was taken. */
  readonly inForce: () => PlanInForce | null
  /** Somebody looks at the plan: one that time has made old is made anew. */
  readonly look: () => void
  /** To be called after every commit that added facts. */
  readonly factsAdded: () => void
  /**
   * Keeps the newest plan, so that it can be taken; one that is kept already stays as it is. Refused when the plan has
   * moved on since it was shown.
   */
  readonly keep: (planId: PlanId) => Result<true>
  /** What would be planned if; a newer question of the same device ends an older one, which is then refused. */
  readonly tryWhatIf: (device: DeviceId, whatIfs: readonly WhatIf[]) => Promise<Result<Plan>>
  /** Has `listener` called whenever the status has changed. */
  readonly onMoved: (listener: () => void) => void
}
