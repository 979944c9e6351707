import type { PlanBudget } from '../../domain/plan/plan-budget.ts'
import type { PlanInput } from '../../domain/plan/plan-input.ts'
import type { Plan, WhatIf } from '../../domain/plan/plan.ts'
import type { Refusal } from '../../domain/refusal.ts'

/** What the plan worker is asked to plan. A function cannot be handed to a thread: names go along as a table. */
export interface PlanRequest {
  readonly input: Omit<PlanInput, 'nameOf'> & { readonly names: ReadonlyMap<string, string> }
  /** Empty for the workshop as it is. */
  readonly whatIfs: readonly WhatIf[]
  readonly budget: PlanBudget
}

/** Somebody waits for the answer to a 'what if', so that those go first. */
export type Urgency = 'replan' | 'what if'

export type ToPlanWorker =
  | { readonly kind: 'plan'; readonly id: number; readonly urgency: Urgency; readonly request: PlanRequest }
  | { readonly kind: 'stop'; readonly id: number }
  /** While it is held nothing is replanned; what-ifs go on. */
  | { readonly kind: 'hold'; readonly held: boolean }

export type FromPlanWorker = { readonly id: number } & (
  | { readonly kind: 'plan'; readonly plan: Plan; readonly isFinal: boolean }
  /** A slice of the search is done: it is alive. */
  | { readonly kind: 'slice' }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  /** A defect in the planner, in words; there will be no plan. */
  | { readonly kind: 'failed'; readonly words: string }
)
