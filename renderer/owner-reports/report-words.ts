/** '2026-W48' as 'week 48'. */
export const isoWeekNumber = (week: string): string => `week ${Number(week.slice(week.indexOf('W') + 1))}`
