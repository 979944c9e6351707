import type { CarState } from '../domain/car.ts'
import type { CarId } from '../domain/ids.ts'
import type { CarVariance, VisitRecord, VisitSum } from '../domain/value/car-variance.ts'
import type { DayPlan } from '../domain/value/day-plan.ts'
import type { DayShare } from '../domain/value/planned-value.ts'
import type { SchedulePlan } from '../domain/value/schedule-plan.ts'
import type { FiguresDraft } from '../domain/value/variance-row.ts'
import { noFigures, VARIANCE_FIGURES } from '../domain/value/variance-row.ts'
import { monthOfDate } from '../domain/value/work-shares.ts'
import type { plannedAmount, varianceDay, varianceSum, varianceVisit } from './schema.ts'

export type AmountRow = typeof plannedAmount.$inferSelect
export type SumRow = typeof varianceSum.$inferSelect
export type VisitRow = typeof varianceVisit.$inferSelect
export type DayRow = typeof varianceDay.$inferSelect

export interface VarianceRows {
  readonly sums: readonly SumRow[]
  readonly visits: readonly VisitRow[]
  readonly days: readonly DayRow[]
}

/** What the Variance screen sums of a car, as rows. */
export function varianceToRows(car: CarState, { sums, visits }: CarVariance): VarianceRows {
  return {
    sums: sums.map((sum) => sumToRow(car.id, sum)),
    visits: visits.map((visit) => visitToRow(car, visit)),
    days: visits.flatMap((visit) => visit.days.map((day) => dayToRow(car.id, day))),
  }
}

function sumToRow(carId: CarId, { grouping, key, visitId, figures, causes }: VisitSum): SumRow {
  const draft: FiguresDraft = { ...noFigures }
  // A difference of sums may be -0, which a table does not tell from 0.
  for (const figure of VARIANCE_FIGURES) draft[figure] = figures[figure] + 0
  return {
    grouping,
    key,
    visitId,
    carId,
    ...draft,
    causes: JSON.stringify(Object.fromEntries(causes)),
  }
}

function visitToRow(car: CarState, { visitId, kind, schedule, earnedOfPlanned }: VisitRecord): VisitRow {
  return {
    visitId,
    carId: car.id,
    kind,
    opened: car.visits.get(visitId)?.opened.number ?? 0,
    earnedOfPlanned: earnedOfPlanned + 0,
    schedule: schedule === null ? null : JSON.stringify(schedule),
  }
}

/** The visit and the month are told by the row itself. */
type KeptPlan = Omit<DayPlan['byKey'], 'visit' | 'month'>

const dayToRow = (carId: CarId, { visitId, date, byKey }: DayPlan): DayRow => {
  const { visit: _visit, month: _month, ...planned } = byKey
  return { visitId, date, carId, hours: (byKey.visit[visitId] ?? 0) + 0, planned: JSON.stringify(planned) }
}

/** What a row says, as it was before it became one. */
export const rowToDay = ({ visitId, date, hours, planned }: DayRow): DayPlan => ({
  visitId,
  date,
  byKey: {
    ...(JSON.parse(planned) as KeptPlan),
    visit: { [visitId]: hours },
    month: { [monthOfDate(date)]: hours },
  },
})

/** The plan of a visit by weeks; null for one that was never planned. */
export const rowToSchedule = ({ schedule }: Pick<VisitRow, 'schedule'>): SchedulePlan | null =>
  schedule === null ? null : (JSON.parse(schedule) as SchedulePlan)

/** Planned days as JSON, [[local date, share], ...]. */
export const daysToText = (days: readonly DayShare[]): string =>
  JSON.stringify(days.map(({ date, share }) => [date, share]))

/** The other way of {@link daysToText}. */
export const textToDays = (text: string): readonly DayShare[] =>
  (JSON.parse(text) as readonly (readonly [string, number])[]).map(([date, share]) => ({ date, share }))
