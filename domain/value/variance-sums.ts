import type { CarId, VisitId } from '../ids.ts'
import type { EarnedSchedule } from './earned-value.ts'
import { dayToRow, type LabelledDay } from './planned-rows.ts'
import {
  DRILL_GROUPINGS,
  type DrillGrouping,
  groupRows,
  mergeGroups,
  type VarianceGroup,
} from './variance-groups.ts'
import type { VarianceRow } from './variance-row.ts'

/** The hours of the whole workshop at one moment. */
export interface VarianceSums {
  readonly groups: Readonly<Record<DrillGrouping, readonly VarianceGroup[]>>
  readonly visits: readonly VisitLabel[]
}

export interface VisitLabel {
  readonly visitId: VisitId
  readonly carId: CarId
  /** Of the car, with what tells a warranty visit from the one before. */
  readonly name: string
  /** In weeks; null without a plan and before its first week. */
  readonly schedule: EarnedSchedule | null
}

/** What the sums of facts lack, or have too much of, at one moment. */
export interface SumsNow {
  /** Planned days after today, which the sums hold already. */
  readonly toCome: readonly LabelledDay[]
  /** Of gates and tasks that a clock runs on, which the sums leave out. */
  readonly running: readonly VarianceRow[]
}

/** Sums of facts brought to a moment. */
export function groupsNow(
  kept: Iterable<VarianceGroup>,
  now: SumsNow,
  grouping: DrillGrouping,
): readonly VarianceGroup[] {
  const rows = [...now.running, ...now.toCome.map(takenOff)]
  return mergeGroups([...kept, ...groupRows(rows, grouping)]).map(withoutRest)
}

/** The same in every grouping. */
export const allGroupsNow = (
  kept: ReadonlyMap<DrillGrouping, readonly VarianceGroup[]>,
  now: SumsNow,
): VarianceSums['groups'] =>
  Object.fromEntries(
    DRILL_GROUPINGS.map(
      (grouping) => [grouping, groupsNow(kept.get(grouping) ?? [], now, grouping)] as const,
    ),
  ) as Record<DrillGrouping, readonly VarianceGroup[]>

const takenOff = ({ hours, ...day }: LabelledDay): VarianceRow => dayToRow({ ...day, hours: -hours })

/** What is left of a sum that everything was taken off again, person-hours. */
const REST = 1e-9

const withoutRest = (group: VarianceGroup): VarianceGroup =>
  Math.abs(group.figures.planned) > REST ? group : { ...group, figures: { ...group.figures, planned: 0 } }
