import type { VisitId } from '../ids.ts'
import type { LabelledDay } from './planned-rows.ts'
import type { Grouping } from './variance-groups.ts'
import { groupKey } from './variance-groups.ts'

/** Planned hours of a visit on one local date by what they are grouped by; each grouping adds up to the same. */
export interface DayPlan {
  readonly visitId: VisitId
  readonly date: string
  readonly byKey: Readonly<Record<Grouping, Readonly<Record<string, number>>>>
}

/** In order of dates. */
export function dayPlans(visitId: VisitId, planned: readonly LabelledDay[]): readonly DayPlan[] {
  const byDate = Map.groupBy(planned, ({ date }) => date)
  return [...byDate]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([date, days]) => ({
      visitId,
      date,
      byKey: {
        visit: sumsBy(days, 'visit'),
        type: sumsBy(days, 'type'),
        gate: sumsBy(days, 'gate'),
        person: sumsBy(days, 'person'),
        zone: sumsBy(days, 'zone'),
        month: sumsBy(days, 'month'),
      },
    }))
}

function sumsBy(days: readonly LabelledDay[], grouping: Grouping): Readonly<Record<string, number>> {
  const sums: Record<string, number> = {}
  for (const { labels, hours } of days) {
    const key = groupKey(labels, grouping)
    if (key !== null) sums[key] = (sums[key] ?? 0) + hours
  }
  return sums
}
