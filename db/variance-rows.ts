import type { CarState } from '../domain/car.ts'
import type { CarId, PersonId, VisitId } from '../domain/ids.ts'
import type { CarVariance, VisitRecord, VisitSum } from '../domain/value/car-variance.ts'
import type { LabelledDay } from '../domain/value/planned-rows.ts'
import type { DayShare } from '../domain/value/planned-value.ts'
import type { SchedulePlan } from '../domain/value/schedule-plan.ts'
import type { FiguresDraft, VarianceLabels } from '../domain/value/variance-row.ts'
import { noFigures, VARIANCE_FIGURES } from '../domain/value/variance-row.ts'
import { monthOfDate } from '../domain/value/work-shares.ts'
import type { plannedAmount, varianceSum, varianceVisit } from './schema.ts'

export type AmountRow = typeof plannedAmount.$inferSelect
export type SumRow = typeof varianceSum.$inferSelect
export type VisitRow = typeof varianceVisit.$inferSelect

export interface VarianceRows {
  readonly sums: readonly SumRow[]
  readonly visits: readonly VisitRow[]
}

export function varianceToRows(car: CarState, { sums, visits }: CarVariance): VarianceRows {
  return {
    sums: sums.map((sum) => sumToRow(car.id, sum)),
    visits: visits.map((visit) => visitToRow(car, visit)),
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

function visitToRow(
  car: CarState,
  { visitId, kind, planned, schedule, earnedOfPlanned }: VisitRecord,
): VisitRow {
  return {
    visitId,
    carId: car.id,
    kind,
    opened: car.visits.get(visitId)?.opened.number ?? 0,
    plannedTo: planned.at(-1)?.date ?? null,
    earnedOfPlanned: earnedOfPlanned + 0,
    schedule: schedule === null ? null : JSON.stringify(schedule),
    planned: JSON.stringify(toPlannedGroups(planned)),
  }
}

/** Days of the same labels, which are most of the text, stand together. */
interface PlannedGroup {
  readonly of: readonly [VarianceLabels['type'], VarianceLabels['gate'], string, PersonId | null]
  readonly days: readonly (readonly [string, number])[]
}

function toPlannedGroups(planned: readonly LabelledDay[]): readonly PlannedGroup[] {
  const groups = Map.groupBy(planned, ({ labels: { type, gate, zone, person } }) =>
    JSON.stringify([type, gate, zone, person]),
  )
  return [...groups].map(([text, days]) => ({
    of: JSON.parse(text) as PlannedGroup['of'],
    days: mergedDays(days),
  }))
}

function mergedDays(days: readonly LabelledDay[]): PlannedGroup['days'] {
  const byDate = new Map<string, number>()
  for (const { date, hours } of days) byDate.set(date, (byDate.get(date) ?? 0) + hours)
  return [...byDate]
}

/** The planned days of a visit after a local date. */
export function plannedAfter(
  { visitId, carId, planned }: Pick<VisitRow, 'visitId' | 'carId' | 'planned'>,
  today: string,
): readonly LabelledDay[] {
  const groups = JSON.parse(planned) as readonly PlannedGroup[]
  return groups.flatMap(({ of: [type, gate, zone, person], days }) =>
    days
      .filter(([date]) => date > today)
      .map(([date, hours]) => ({
        labels: { ...labelsOf(carId, visitId), type, gate, zone, person, month: monthOfDate(date) },
        date,
        hours,
      })),
  )
}

/** The gate or task itself is not kept: no sum asks for it. */
const labelsOf = (carId: CarId, visitId: VisitId) => ({ carId, visitId, target: '', cause: null })

export const rowToSchedule = ({ schedule }: Pick<VisitRow, 'schedule'>): SchedulePlan | null =>
  schedule === null ? null : (JSON.parse(schedule) as SchedulePlan)

export const daysToText = (days: readonly DayShare[]): string =>
  JSON.stringify(days.map(({ date, share }) => [date, share]))

export const textToDays = (text: string): readonly DayShare[] =>
  (JSON.parse(text) as readonly (readonly [string, number])[]).map(([date, share]) => ({ date, share }))
