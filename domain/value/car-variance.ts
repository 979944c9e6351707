import type { CarState, Visit, VisitState } from '../car.ts'
import type { VisitId } from '../ids.ts'
import type { WorkshopState } from '../workshop.ts'
import { type DayPlan, dayPlans } from './day-plan.ts'
import type { HoursContext, IsCounted } from './entry-hours.ts'
import { ownVisits } from './own-visits.ts'
import { perRevision } from './per-revision.ts'
import { type PlannedAmounts, plannedDays } from './planned-days.ts'
import { dayToRow, plannedRows, visitSchedule } from './planned-rows.ts'
import { schedulePlan, type SchedulePlan } from './schedule-plan.ts'
import { targetKey } from './target.ts'
import { earnedOfPlannedByDay } from './value-days.ts'
import { DRILL_GROUPINGS, type DrillGrouping, groupRows, type VarianceGroup } from './variance-groups.ts'
import type { VarianceRow } from './variance-row.ts'
import { varianceRows } from './variance-rows.ts'

/** What of a car's hours stays the same whatever the time, in sums that a table can hold. */
export interface CarVariance {
  readonly sums: readonly VisitSum[]
  readonly visits: readonly VisitRecord[]
}

/** One group of one visit. Its planned value holds the days to come too. */
export interface VisitSum extends VarianceGroup {
  readonly visitId: VisitId
  readonly grouping: DrillGrouping
}

export interface VisitRecord {
  readonly visitId: VisitId
  readonly kind: Visit['kind']
  /** In order of dates; those after today are to be taken off the sums. */
  readonly days: readonly DayPlan[]
  /** Null where nothing is planned. */
  readonly schedule: SchedulePlan | null
  /** EV of the work that has a planned value. */
  readonly earnedOfPlanned: number
}

/**
 * The sums of a car. Gates and tasks that a clock runs on move with the time: the sums leave them out, and
 * {@link runningRows} has them. Cost: a few milliseconds for 160 gates and 400 entries.
 */
export function carVariance(car: CarState, planned: PlannedAmounts, workshop: WorkshopState): CarVariance {
  const context = { at: BEFORE_ALL_CLOCKS, workshop }
  const running = runningTargets(car)
  const isQuiet = running.size === 0 ? null : (key: string) => !running.has(key)
  const parts = ownVisits(car).map((visit) => visitPart(car, visit, planned, context, isQuiet))
  return { sums: parts.flatMap(({ sums }) => sums), visits: parts.map(({ record }) => record) }
}

/** The rows that {@link carVariance} leaves out: of gates and tasks that a clock runs on, up to now. */
export function runningRows(
  car: CarState,
  planned: PlannedAmounts,
  context: HoursContext,
): readonly VarianceRow[] {
  const running = runningTargets(car)
  if (running.size === 0) return []
  const isRunning = (key: string) => running.has(key)
  return ownVisits(car).flatMap((visit) => visitRows(car, visit, planned, context, isRunning))
}

/** All rows of a visit up to now, of hours and of its schedule, or those of some gates and tasks only. */
export function visitRows(
  car: CarState,
  visit: VisitState,
  planned: PlannedAmounts,
  context: HoursContext,
  isCounted: IsCounted | null,
): readonly VarianceRow[] {
  const days = plannedDays(car, visit, planned, context, isCounted)
  return [
    ...varianceRows(car, visit, context, isCounted),
    ...plannedRows(car, visit, days, context, isCounted),
  ]
}

/** A clock counts nothing before it has started, so that what is reckoned then goes by the facts alone. */
const BEFORE_ALL_CLOCKS = 0

function visitPart(
  car: CarState,
  visit: VisitState,
  planned: PlannedAmounts,
  context: HoursContext,
  isQuiet: IsCounted | null,
): { readonly sums: readonly VisitSum[]; readonly record: VisitRecord } {
  const days = plannedDays(car, visit, planned, context)
  const quiet = visitSchedule(
    car,
    visit,
    days.filter(({ target }) => isQuiet === null || isQuiet(targetKey(target))),
    context,
    isQuiet,
  )
  const rows = [
    ...varianceRows(car, visit, context, isQuiet),
    ...quiet.planned.map(dayToRow),
    ...quiet.earned,
  ]
  const earned = earnedOfPlannedByDay(car, visit, days, context)
  return {
    sums: DRILL_GROUPINGS.flatMap((grouping) =>
      groupRows(rows, grouping).map((group) => ({ ...group, grouping, visitId: visit.id })),
    ),
    record: {
      visitId: visit.id,
      kind: visit.kind,
      days: dayPlans(visit.id, quiet.planned),
      schedule: schedulePlan(days, earned),
      earnedOfPlanned: earned.reduce((sum, { hours }) => sum + hours, 0),
    },
  }
}

const runningTargets = perRevision(
  (car): ReadonlySet<string> =>
    new Set(
      [...car.entries.values()].flatMap(({ time, gone, on }) =>
        time.kind === 'running' && gone === null && on.kind === 'work' ? on.targets.map(targetKey) : [],
      ),
    ),
)
