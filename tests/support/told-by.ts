import type { EstimateHistory } from '../../domain/estimate/estimate-history.ts'
import { GRADES } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import type { TypeId } from '../../domain/ids.ts'

/** Nothing done, opened, assessed, with welding open alone, and with opening not needed after later gates. */
const POINTS = [
  [],
  GATES.slice(0, 1),
  GATES.slice(0, 2),
  GATES.filter((gate) => gate !== 'welded'),
  GATES.slice(1, 4),
]

/** All that a history says of some types, to set two of them beside each other figure by figure. */
export function toldBy(
  history: EstimateHistory,
  types: readonly (TypeId | null)[],
  layers: readonly string[],
) {
  const { repairs, multiples, correlation } = history
  const outsides = [null, ...GRADES]
  return {
    repairs,
    multiples,
    correlation,
    worst: types.flatMap((type) => outsides.map((outside) => history.worstOf(type, outside))),
    layers: types.flatMap((type) => layers.map((layer) => history.layerOf(type, layer, 'surface'))),
    points: types.flatMap((type) => POINTS.map((done) => history.learnedAt(type, { done }))),
  }
}
