import type { CarState, LayerState, RepairState } from '../car.ts'
import { isLayerPhotographed } from '../rules/evidence.ts'
import { standsOpen } from '../rules/standing.ts'
import type { LayerStateWord, SectionLayer, SectionView } from './shared-views.ts'

/** A repair cut through its layers, innermost first. */
export function sectionView(car: CarState, repair: RepairState): SectionView {
  const isPassed = (gate: 'sealed' | 'primed' | 'painted'): boolean => repair.gates[gate].status === 'passed'
  return {
    layers: repair.plan.layers.flatMap((plan, index) => {
      const layer = repair.layers.get(plan.layerId)
      const closing = index === repair.plan.layers.length - 1
      return layer === undefined ? [] : [sectionLayer(car, repair, layer, plan, closing)]
    }),
    open: standsOpen(repair),
    sealed: isPassed('sealed'),
    primed: isPassed('primed'),
    painted: isPassed('painted'),
  }
}

function sectionLayer(
  car: CarState,
  repair: RepairState,
  layer: LayerState,
  { name, thicknessMm, loadBearing }: RepairState['plan']['layers'][number],
  closing: boolean,
): SectionLayer {
  const { id, grade, judgedBy, remainingMm, decision } = layer
  const photographed = isLayerPhotographed(car, repair, id)
  const found = { grade, judgedBy, remainingMm, decision, state: layerState(layer), photographed }
  return { id, name, thicknessMm, loadBearing, closing, ...found }
}

function layerState({ closedOver, coated, repaired, graded }: LayerState): LayerStateWord {
  if (closedOver) return 'closed over'
  if (coated) return 'coated'
  if (repaired) return 'repaired'
  return graded ? 'found' : 'not seen yet'
}
