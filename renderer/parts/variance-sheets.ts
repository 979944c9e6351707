/** What hours are compared by, in the order of their tabs; the first is shown when the address names none. */
export const VARIANCE_SHEETS = ['gate', 'type', 'car', 'zone', 'month', 'person'] as const
export type VarianceSheet = (typeof VARIANCE_SHEETS)[number]
