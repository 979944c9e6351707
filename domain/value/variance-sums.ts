import type { CarId, VisitId } from '../ids.ts'
import type { DayPlan } from './day-plan.ts'
import type { EarnedSchedule } from './earned-value.ts'
import {
  DRILL_GROUPINGS,
  type DrillGrouping,
  groupKey,
  groupRows,
  mergeGroups,
  type VarianceGroup,
} from './variance-groups.ts'
import { noFigures, type VarianceRow } from './variance-row.ts'

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

/** What the sums of facts have too much of, or lack, at one moment. */
export interface SumsNow {
  /** Planned days after today, which the sums hold already. */
  readonly toCome: readonly DayPlan[]
  /** Of gates and tasks that a clock runs on, which the sums leave out. */
  readonly running: readonly VarianceRow[]
}

/** Sums of facts in every grouping, brought to a moment. */
export const allGroupsNow = (
  kept: ReadonlyMap<DrillGrouping, readonly VarianceGroup[]>,
  { toCome, running }: SumsNow,
): VarianceSums['groups'] =>
  Object.fromEntries(
    DRILL_GROUPINGS.map((grouping) => {
      const plans = grouping === 'cause' ? [] : toCome.map(({ byKey }) => byKey[grouping])
      return [grouping, brought(kept.get(grouping) ?? [], plans, groupRows(running, grouping))] as const
    }),
  ) as Record<DrillGrouping, readonly VarianceGroup[]>

/** The parts that visits have in one figure, brought to a moment; their keys are visits. */
export function partsNow(
  kept: readonly VarianceGroup[],
  { toCome, running }: SumsNow,
  { grouping, key }: { readonly grouping: DrillGrouping; readonly key: string },
): readonly VarianceGroup[] {
  const plans =
    grouping === 'cause' ? [] : toCome.map(({ visitId, byKey }) => ({ [visitId]: byKey[grouping][key] ?? 0 }))
  const rows = running.filter(({ labels }) => groupKey(labels, grouping) === key)
  return brought(kept, plans, groupRows(rows, 'visit'))
}

/** @param plans planned hours to be taken off, by key */
function brought(
  kept: readonly VarianceGroup[],
  plans: readonly Readonly<Record<string, number>>[],
  running: readonly VarianceGroup[],
): readonly VarianceGroup[] {
  const off = new Map<string, number>()
  for (const plan of plans) for (const key in plan) off.set(key, (off.get(key) ?? 0) - (plan[key] ?? 0))
  const takenOff = [...off]
    .filter(([, planned]) => planned !== 0)
    .map(([key, planned]) => ({ key, figures: { ...noFigures, planned }, causes: NO_CAUSES }))
  return mergeGroups([...kept, ...takenOff, ...running]).map(withoutRest)
}

const NO_CAUSES: VarianceGroup['causes'] = new Map()

/** What is left of a sum that everything was taken off again, person-hours. */
const REST = 1e-9

const withoutRest = (group: VarianceGroup): VarianceGroup =>
  Math.abs(group.figures.planned) > REST ? group : { ...group, figures: { ...group.figures, planned: 0 } }
