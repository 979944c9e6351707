/** How much work a plan may take. Counted in schedules and samples, never in time: the same request gives the same plan. */
export interface PlanBudget {
  readonly seed: number
  /** Passes of the generation scheme, the first plan's not counted. */
  readonly schedules: number
  /** Passes between two looks at what was asked meanwhile. */
  readonly slice: number
  /** Samples of the likelihoods. */
  readonly samples: number
}

/** A good plan within 2 s for 20 cars with 1,280 gates, as the bench measures. */
export const USUAL_BUDGET: PlanBudget = { seed: 1, schedules: 400, slice: 10, samples: 1_000 }

/** For somebody who waits: begins from a plan that is good already, and answers within half a second. */
export const QUICK_BUDGET: PlanBudget = { ...USUAL_BUDGET, schedules: 60 }
