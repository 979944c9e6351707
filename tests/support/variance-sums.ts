import type { CarState } from '../../domain/car.ts'
import { localDateOf } from '../../domain/time/zone.ts'
import { carVariance, runningRows } from '../../domain/value/car-variance.ts'
import type { HoursContext } from '../../domain/value/entry-hours.ts'
import type { PlannedAmounts } from '../../domain/value/planned-days.ts'
import { scheduleAt } from '../../domain/value/schedule-plan.ts'
import {
  DRILL_GROUPINGS,
  type DrillGrouping,
  groupRows,
  type VarianceGroup,
} from '../../domain/value/variance-groups.ts'
import type { VarianceRow } from '../../domain/value/variance-row.ts'
import { allGroupsNow, type VarianceSums } from '../../domain/value/variance-sums.ts'
import { visitName } from '../../domain/views/variance-drill.ts'

/** The sums of cars at a moment, as the tables would give them. */
export function varianceSums(
  cars: readonly CarState[],
  context: HoursContext,
  planned: PlannedAmounts = new Map(),
): VarianceSums {
  const today = localDateOf(context.at, context.workshop.zone)
  const schedule = scheduleAt(context.at, context.workshop)
  const parts = cars.map((car) => ({ car, ...carVariance(car, planned, context.workshop) }))
  const visits = parts.flatMap(({ car, visits: own }) => own.map((record) => ({ car, ...record })))
  return {
    groups: allGroupsNow(
      Map.groupBy(
        parts.flatMap(({ sums }) => sums),
        ({ grouping }) => grouping,
      ),
      {
        toCome: visits.flatMap((visit) => visit.days.filter(({ date }) => date > today)),
        running: cars.flatMap((car) => runningRows(car, planned, context)),
      },
    ),
    visits: visits.map(({ car, visitId, kind, schedule: plan, earnedOfPlanned }) => ({
      visitId,
      carId: car.id,
      name: visitName(car, { kind }),
      schedule: plan === null ? null : schedule(plan, earnedOfPlanned),
    })),
  }
}

export const groupInAllWays = (
  rows: readonly VarianceRow[],
): Readonly<Record<DrillGrouping, readonly VarianceGroup[]>> =>
  Object.fromEntries(
    DRILL_GROUPINGS.map((grouping) => [grouping, groupRows(rows, grouping)] as const),
  ) as Record<DrillGrouping, readonly VarianceGroup[]>
