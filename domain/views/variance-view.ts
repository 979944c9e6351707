import type { CarState } from '../car.ts'
import { GATES } from '../gates.ts'
import type { CarId } from '../ids.ts'
import {
  addHours,
  hoursIndex,
  hoursVariance,
  reworkByCause,
  type TargetFigures,
  visitFigures,
} from '../value/hours.ts'
import type { WorkshopState } from '../workshop.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'
import type { VarianceLine, VarianceView } from './view-shapes.ts'

/**
 * Hours against the estimate over all visits of the given cars: by visit of a car, by repair type and by gate. Each
 * grouping holds every hour once, so all three add up to the same figures.
 */
export function varianceView({
  cars,
  ...input
}: ViewInput & { readonly cars: readonly CarState[] }): VarianceView {
  const context = createViewContext(input)
  const rows = cars.flatMap((car) => rowsOf(car, context))
  return {
    byCar: group(rows, (row) => row.visit),
    byType: group(rows, (row) => row.type).toSorted((a, b) => a.variance - b.variance),
    byGate: group(rows, (row) => row.gate).toSorted((a, b) => gateRank(a.key) - gateRank(b.key)),
    rework: reworkViews(cars, context),
  }
}

interface Label {
  readonly key: string
  readonly name: string
  readonly carId: CarId | null
}

interface VarianceRow {
  readonly figures: TargetFigures
  readonly visit: Label
  readonly type: Label
  readonly gate: Label
}

const TASKS: Label = { key: 'tasks', name: 'Tasks', carId: null }
const NO_TYPE: Label = { key: 'no-type', name: 'Repairs without a type', carId: null }

function rowsOf(car: CarState, context: ViewContext): readonly VarianceRow[] {
  return [...car.visits.values()].flatMap(({ id, kind }) => {
    const name = kind === 'warranty' ? `${car.name}, warranty` : car.name
    const visit = { key: id, name, carId: car.id }
    return [...visitFigures(car, id, context).values()].map((figures) => ({
      figures,
      visit,
      type: typeLabel(car, figures, context.workshop),
      gate: gateLabel(figures),
    }))
  })
}

function typeLabel(car: CarState, { target }: TargetFigures, workshop: WorkshopState): Label {
  if (target.kind === 'task') return TASKS
  const typeId = car.repairs.get(target.repairId)?.typeId
  if (typeId === null || typeId === undefined) return NO_TYPE
  const name = workshop.types.get(typeId)?.plan.name ?? 'A type that is gone'
  return { key: typeId, name, carId: null }
}

function gateLabel({ target }: TargetFigures): Label {
  return target.kind === 'task' ? TASKS : { key: target.gate, name: target.gate, carId: null }
}

/** In the gates' usual order; tasks last. */
function gateRank(key: string): number {
  const index = (GATES as readonly string[]).indexOf(key)
  return index === -1 ? GATES.length : index
}

function group(rows: readonly VarianceRow[], labelOf: (row: VarianceRow) => Label): readonly VarianceLine[] {
  return [...Map.groupBy(rows, (row) => labelOf(row).key).values()].flatMap((of) => {
    const [first] = of
    if (first === undefined) return []
    const hours = addHours(of.map(({ figures }) => figures.hours))
    const baseline = of.reduce((sum, { figures }) => sum + figures.baseline, 0)
    return [{ ...labelOf(first), baseline, hours, variance: hoursVariance(hours), index: hoursIndex(hours) }]
  })
}

/** Rework by its cause over all visits, most hours first. */
function reworkViews(cars: readonly CarState[], context: ViewContext): VarianceView['rework'] {
  const causes = new Map<string, number>()
  for (const car of cars)
    for (const visitId of car.visits.keys())
      for (const [cause, hours] of reworkByCause(car, visitId, context))
        causes.set(cause, (causes.get(cause) ?? 0) + hours)
  return [...causes].map(([cause, hours]) => ({ cause, hours })).toSorted((a, b) => b.hours - a.hours)
}
