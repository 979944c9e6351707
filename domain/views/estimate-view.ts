import type { CarState, RepairState } from '../car.ts'
import type { EstimateHistory } from '../estimate/estimate-history.ts'
import type { FinishedRepair } from '../estimate/finished-repair.ts'
import { currentVisit } from './car-header.ts'
import { type EstimateContext, estimateRepair } from './estimate-repair.ts'
import type { EstimateRepairView, EstimateView } from './estimate-shapes.ts'
import { carBands, estimateTasks, moverViews, payerSums, wholeView } from './estimate-whole.ts'
import { createViewContext, type ViewInput } from './view-context.ts'

export interface EstimateInput extends ViewInput {
  readonly car: CarState
  /** The workshop's finished repairs, in the order of finishing; empty for a workshop that has none. */
  readonly finished: readonly FinishedRepair[]
  /** What they tell. */
  readonly history: EstimateHistory
}

/** The estimate of a car's current visit: each repair with what may be hidden and its band, and the car as a whole. */
export function estimateView({ car, finished, history, ...input }: EstimateInput): EstimateView {
  const visit = currentVisit(car)
  if (visit === null || visit.from !== null) return withoutVisit(car)
  const context: EstimateContext = { car, visit, view: createViewContext(input), finished, history }
  const repairs = repairsOf(context).map((repair) => estimateRepair(repair, context))
  const tasks = estimateTasks(context)
  const bands = carBands(repairs, tasks, context)
  const payers = payerSums(context)
  const shown = repairs.map((repair) => repair.shown)
  return {
    carId: car.id,
    visitId: visit.id,
    repairs: shown,
    tasks: tasks.map((task) => task.shown),
    whole: wholeView(bands, repairs, tasks, payers, finished.length),
    movers: bands.now === null ? [] : moverViews(bands.now, repairs, tasks),
    payers,
    scale: Math.max(0, ...shown.flatMap(drawnHours)),
  }
}

function withoutVisit({ id }: CarState): EstimateView {
  const whole = { agreed: 0, accepted: 0, waiting: 0, asked: 0, band: null, first: null, rests: [] }
  const words = 'The car has no visit, so that nothing is estimated.'
  return {
    carId: id,
    visitId: null,
    repairs: [],
    tasks: [],
    whole: { ...whole, words },
    movers: [],
    payers: [],
    scale: 0,
  }
}

/** Those of the visit, and earlier ones that have a line in it. */
function repairsOf({ car, visit }: EstimateContext): readonly RepairState[] {
  const estimated = new Set(
    [...visit.lines.values()].flatMap(({ target }) => (target.kind === 'gate' ? [target.repairId] : [])),
  )
  return [...car.repairs.values()].filter(
    ({ id, visitId, retired }) => retired === null && (visitId === visit.id || estimated.has(id)),
  )
}

const drawnHours = ({ agreed, band, first, took }: EstimateRepairView): readonly number[] => [
  agreed,
  band?.p80 ?? 0,
  first?.p80 ?? 0,
  took ?? 0,
]
