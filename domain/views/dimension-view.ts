import type { CarState } from '../car.ts'
import { compareDimension } from '../measure/dimensions.ts'
import { stampName, type ViewContext } from './view-context.ts'
import type { DimensionView } from './view-shapes.ts'

/** The car's reference dimensions, each with its readings, the latest first. */
export function dimensionViews(car: CarState, context: ViewContext): readonly DimensionView[] {
  return [...car.dimensions.values()].map((dimension) => ({
    id: dimension.id,
    name: dimension.name,
    kind: dimension.kind,
    side: dimension.side,
    limitMm: dimension.limitMm,
    targetMm: dimension.targetMm,
    targetReason: dimension.targetReason,
    asFoundMm: dimension.asFound.mm,
    asFoundStood: dimension.asFound.stood,
    asFoundDoorsHung: dimension.asFound.doorsHung,
    readings: dimension.readings.map((reading) => readingView(dimension, reading, context)).toReversed(),
  }))
}

type DimensionState = ReturnType<CarState['dimensions']['get']> & object

function readingView(
  dimension: DimensionState,
  reading: DimensionState['readings'][number],
  { nameOf }: ViewContext,
): DimensionView['readings'][number] {
  const { mm, stood, doorsHung, stamp } = reading
  const read = { at: stamp.happened, by: stampName(stamp, nameOf), mm, stood, doorsHung }
  const compared = compareDimension(dimension, reading)
  return compared.kind === 'comparable'
    ? { ...read, driftMm: compared.driftMm, inside: compared.inside, words: compared.words }
    : { ...read, driftMm: null, inside: null, words: compared.reason }
}
