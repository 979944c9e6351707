import type { BandsWhen } from '../../../domain/facts/agreement-facts.ts'
import type { DrillGrouping } from '../../../domain/value/variance-groups.ts'

/** What hours are compared by, in the order of their tabs; the first is shown when the address names none. */
export const VARIANCE_SHEETS = ['gate', 'type', 'car', 'zone', 'month', 'person'] as const
export type VarianceSheet = (typeof VARIANCE_SHEETS)[number]

/** What an address may look into: each tab's lines, and rework by its cause. */
export const VARIANCE_DRILLS = [...VARIANCE_SHEETS, 'cause'] as const
export type VarianceDrillBy = (typeof VARIANCE_DRILLS)[number]

/** A car's lines are visits. */
export const groupingOf = (by: VarianceDrillBy): DrillGrouping => (by === 'car' ? 'visit' : by)

/** What 'Were we right' judges, and of how many of the last finished repairs. */
export const JUDGED_WHEN = ['accepted', 'assessed'] as const satisfies readonly BandsWhen[]
export const JUDGED_LAST = ['20', '50', 'all'] as const
export type JudgedLast = (typeof JUDGED_LAST)[number]
