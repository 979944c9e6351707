/** How much work a plan may take. Counted and never timed: the same request gives the same plan on every machine. */
export interface PlanBudget {
  readonly seed: number
  /** Pieces of work placed by the search: one pass of the generation scheme places each piece once. */
  readonly placements: number
  /** The same between two looks at what was asked meanwhile. */
  readonly slice: number
  /** Samples of the likelihoods. */
  readonly samples: number
}

/** A good plan within 2 s for 20 cars with 1,280 gates, as the bench measures; smaller workshops are searched longer. */
export const USUAL_BUDGET: PlanBudget = { seed: 1, placements: 512_000, slice: 12_800, samples: 1_000 }

/** For somebody who waits: begins from a plan that is good already, and answers within half a second. */
export const QUICK_BUDGET: PlanBudget = { ...USUAL_BUDGET, placements: 76_800 }

/** Passes of the generation scheme; at least one. */
export function schedulesOf(placements: number, activities: number): number {
  return Math.ceil(placements / Math.max(1, activities))
}
