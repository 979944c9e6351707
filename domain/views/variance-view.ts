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
import { perReckoning } from '../value/per-reckoning.ts'
import type { WorkshopState } from '../workshop.ts'
import type { HoursPair } from './shared-views.ts'
import { createViewContext, type ViewInput } from './view-context.ts'
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
  const sums = cars.map((car) => carSums(car, context))
  return {
    byCar: lines(sums.flatMap(({ byVisit }) => byVisit)),
    byType: lines(sums.flatMap(({ byType }) => byType))
      .map((line) => ({ ...line, name: typeName(line.key, context.workshop) }))
      .toSorted((a, b) => a.variance - b.variance),
    byGate: lines(sums.flatMap(({ byGate }) => byGate)).toSorted((a, b) => gateRank(a.key) - gateRank(b.key)),
    rework: reworkViews(sums),
  }
}

interface Sum {
  readonly key: string
  readonly name: string
  readonly carId: CarId | null
  readonly baseline: number
  readonly hours: HoursPair
}

type Label = Omit<Sum, 'baseline' | 'hours'>

interface CarSums {
  readonly byVisit: readonly Sum[]
  readonly byType: readonly Sum[]
  readonly byGate: readonly Sum[]
  readonly rework: readonly (readonly [cause: string, hours: number])[]
}

const TASKS: Label = { key: 'tasks', name: 'Tasks', carId: null }
const NO_TYPE = 'no-type'

/** A car's own sums are kept until its next fact: ten years of cars are added up from them. */
const carSums = perReckoning((car, context): CarSums => {
  const figures = [...car.visits.keys()].flatMap((id) => [...visitFigures(car, id, context).values()])
  return {
    byVisit: [...car.visits.values()].flatMap((visit) => {
      const label = { key: visit.id, name: visitName(car, visit.kind), carId: car.id }
      return group([...visitFigures(car, visit.id, context).values()], () => label)
    }),
    byType: group(figures, (each) => typeLabel(car, each)),
    byGate: group(figures, gateLabel),
    rework: [...car.visits.keys()].flatMap((id) => [...reworkByCause(car, id, context)]),
  }
})

const visitName = (car: CarState, kind: 'agreed' | 'warranty'): string =>
  kind === 'warranty' ? `${car.name}, warranty` : car.name

/** Types are named once the sums are made: their names are the workshop's and may change without the car. */
function typeLabel(car: CarState, { target }: TargetFigures): Label {
  if (target.kind === 'task') return TASKS
  const typeId = car.repairs.get(target.repairId)?.typeId ?? NO_TYPE
  return { key: typeId, name: typeId, carId: null }
}

function typeName(key: string, workshop: WorkshopState): string {
  if (key === TASKS.key) return TASKS.name
  if (key === NO_TYPE) return 'Repairs without a type'
  return [...workshop.types.values()].find(({ id }) => id === key)?.plan.name ?? 'A type that is gone'
}

function gateLabel({ target }: TargetFigures): Label {
  return target.kind === 'task' ? TASKS : { key: target.gate, name: target.gate, carId: null }
}

/** In the gates' usual order; tasks last. */
function gateRank(key: string): number {
  const index = (GATES as readonly string[]).indexOf(key)
  return index === -1 ? GATES.length : index
}

function group(
  figures: readonly TargetFigures[],
  labelOf: (figures: TargetFigures) => Label,
): readonly Sum[] {
  return addUp(figures.map((each) => ({ ...labelOf(each), baseline: each.baseline, hours: each.hours })))
}

const lines = (sums: readonly Sum[]): readonly VarianceLine[] =>
  addUp(sums).map((sum) => ({ ...sum, variance: hoursVariance(sum.hours), index: hoursIndex(sum.hours) }))

/** One sum for each key, in the order in which the keys first come. */
function addUp(parts: readonly Sum[]): readonly Sum[] {
  return [...Map.groupBy(parts, ({ key }) => key).values()].flatMap((of) => {
    const [first] = of
    if (first === undefined) return []
    const baseline = of.reduce((sum, each) => sum + each.baseline, 0)
    return [{ ...first, baseline, hours: addHours(of.map(({ hours }) => hours)) }]
  })
}

/** Rework by its cause, most hours first. */
function reworkViews(sums: readonly CarSums[]): VarianceView['rework'] {
  const causes = new Map<string, number>()
  for (const { rework } of sums)
    for (const [cause, hours] of rework) causes.set(cause, (causes.get(cause) ?? 0) + hours)
  return [...causes].map(([cause, hours]) => ({ cause, hours })).toSorted((a, b) => b.hours - a.hours)
}
