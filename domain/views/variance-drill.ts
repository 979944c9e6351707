import type { CarState, VisitState } from '../car.ts'
import { gateOrder, GATES } from '../gates.ts'
import type { RepairId, TaskId } from '../ids.ts'
import { visitRows } from '../value/car-variance.ts'
import type { HoursContext, IsCounted } from '../value/entry-hours.ts'
import type { PlannedAmounts } from '../value/planned-days.ts'
import { targetKey } from '../value/target.ts'
import { type DrillGrouping, groupKey, totalFigures, type VarianceGroup } from '../value/variance-groups.ts'
import { addInto, type FiguresDraft, noFigures, type VarianceRow } from '../value/variance-row.ts'
import type { VisitLabel } from '../value/variance-sums.ts'
import { targetLabels } from '../value/work-shares.ts'
import { figuresView, keyName, type KeyNames, toLine, worstFirst } from './variance-lines.ts'
import type { VarianceDrill, VarianceWork, WorkVarianceLine } from './variance-shapes.ts'

/** One figure of one grouping. */
export interface DrillKey {
  readonly grouping: DrillGrouping
  readonly key: string
}

/** @param parts the figure's part in each visit that has one; their keys are visits */
export function varianceDrill(
  { grouping, key }: DrillKey,
  parts: readonly VarianceGroup[],
  names: KeyNames,
): VarianceDrill {
  const labels = new Map<string, VisitLabel>(names.visits.map((label) => [label.visitId, label]))
  const visits = parts.flatMap((part) => {
    const label = labels.get(part.key)
    if (label === undefined) return []
    const { carId, visitId, name } = label
    return [{ ...toLine(part, name, carId), carId, visitId }]
  })
  return {
    grouping,
    key,
    name: keyName(grouping, key, names),
    total: figuresView(totalFigures(parts)),
    visits: worstFirst(visits, grouping).slice(0, MOST_VISITS),
    leftOut: Math.max(0, visits.length - MOST_VISITS),
  }
}

/** More than a person looks through; a workshop of many years has hundreds. */
const MOST_VISITS = 100

/** The repairs and tasks of one visit that have a part in a figure. */
export function varianceWork(
  { grouping, key }: DrillKey,
  car: CarState,
  visit: VisitState,
  planned: PlannedAmounts,
  context: HoursContext,
): VarianceWork {
  const rows = visitRows(car, visit, planned, context, isInGroup(car, visit, { grouping, key }))
  const byTarget = Map.groupBy(
    rows.filter(({ labels }) => groupKey(labels, grouping) === key),
    ({ labels }) => labels.target,
  )
  const lines = [...repairLines(car, byTarget), ...taskLines(car, byTarget)]
  return {
    carId: car.id,
    visitId: visit.id,
    name: visitName(car, visit),
    repairs: worstFirst(lines, grouping),
  }
}

/** Which gates and tasks can have a part in a figure, where what they are tells; null where only their hours do. */
function isInGroup(car: CarState, visit: VisitState, { grouping, key }: DrillKey): IsCounted | null {
  if (grouping !== 'gate' && grouping !== 'type' && grouping !== 'zone') return null
  const targets = [
    ...[...car.repairs.keys()].flatMap((repairId) =>
      GATES.map((gate) => ({ kind: 'gate' as const, repairId, gate })),
    ),
    ...[...car.tasks.keys()].map((taskId) => ({ kind: 'task' as const, taskId })),
  ]
  const keys = new Set(
    targets
      .map((target) => targetLabels(car, visit, target))
      .flatMap((labels) => (groupKey(labels, grouping) === key ? [labels.target] : [])),
  )
  return (target) => keys.has(target)
}

export const visitName = ({ name }: Pick<CarState, 'name'>, { kind }: Pick<VisitState, 'kind'>): string =>
  kind === 'warranty' ? `${name}, warranty` : name

type RowsByTarget = ReadonlyMap<string, readonly VarianceRow[]>

function repairLines(car: CarState, byTarget: RowsByTarget): readonly WorkVarianceLine[] {
  return [...car.repairs.values()].flatMap((repair) => {
    const gates = gateOrder(repair.plan).flatMap((gate) => {
      const rows = byTarget.get(targetKey({ kind: 'gate', repairId: repair.id, gate }))
      return rows === undefined ? [] : [{ gate, rows }]
    })
    if (gates.length === 0) return []
    return [
      {
        ...workLine(
          repair.id,
          repair.plan.name,
          gates.flatMap(({ rows }) => rows),
        ),
        repairId: repair.id as RepairId | null,
        gates: gates.map(({ gate, rows }) => ({ gate, ...figuresView(sumOf(rows)) })),
      },
    ]
  })
}

function taskLines(car: CarState, byTarget: RowsByTarget): readonly WorkVarianceLine[] {
  return [...car.tasks.values()].flatMap(({ id, plan }) => {
    const rows = byTarget.get(targetKey({ kind: 'task', taskId: id }))
    return rows === undefined ? [] : [{ ...workLine(id, plan.name, rows), taskId: id as TaskId | null }]
  })
}

const workLine = (key: string, name: string, rows: readonly VarianceRow[]): WorkVarianceLine => ({
  key,
  name,
  repairId: null,
  taskId: null,
  gates: [],
  ...figuresView(sumOf(rows)),
})

function sumOf(rows: readonly VarianceRow[]): FiguresDraft {
  const sum: FiguresDraft = { ...noFigures }
  for (const { figures } of rows) addInto(sum, figures)
  return sum
}
