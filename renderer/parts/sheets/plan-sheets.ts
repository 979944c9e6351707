/** The ways the plan is shown, in the order of their tabs; the first is shown when the address names none. */
export const PLAN_SHEETS = ['drawing', 'list', 'what-if'] as const
export type PlanSheetName = (typeof PLAN_SHEETS)[number]

/** What the list of the plan goes by; the first when the address says nothing. */
export const PLAN_LISTS = ['people', 'bays', 'cars'] as const
export type PlanListName = (typeof PLAN_LISTS)[number]
