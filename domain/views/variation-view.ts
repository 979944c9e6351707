import type { CarState, VariationState } from '../car.ts'
import type { VariationId } from '../ids.ts'
import { perRevision } from '../value/per-revision.ts'
import { photoViews } from './photo-view.ts'
import { stampName, type ViewContext } from './view-context.ts'
import type { FindingView, VariationView } from './view-shapes.ts'
import { targetWords } from './work-words.ts'

export function variationView(car: CarState, variation: VariationState, context: ViewContext): VariationView {
  const { nameOf } = context
  const { id, title, why, ifNot, payer, status, raised, expected, decided, settled, lines } = variation
  const ownerId = car.visits.get(variation.visitId)?.ownerId
  return {
    id,
    carId: car.id,
    carName: car.name,
    owner: ownerId === undefined ? '' : nameOf(ownerId),
    title,
    why,
    ifNot,
    payer,
    status,
    raised: raised.happened,
    raisedBy: stampName(raised, nameOf),
    expected,
    decided: decided?.happened ?? null,
    decidedHow: decided?.how ?? '',
    decidedNote: decided?.note ?? '',
    settledReason: settled?.reason ?? '',
    hours: lines.reduce((sum, { hours }) => sum + hours, 0),
    lines: lines.map(({ target, hours }) => ({
      what: targetWords(car, target),
      hours,
      repairId: target.kind === 'gate' ? target.repairId : null,
    })),
    findings: variation.findings.flatMap((findingId) => {
      const finding = car.findings.get(findingId)
      return finding === undefined ? [] : [findingView(car, finding, context)]
    }),
    photos: photoViews(car, variation.attachments, nameOf),
    closedAsFound: closedAsFoundFor(car).has(id),
  }
}

type FindingState = ReturnType<CarState['findings']['get']> & object

export function findingView(car: CarState, finding: FindingState, { nameOf }: ViewContext): FindingView {
  const { id, repairId, layerId, kind, grade, extent, needs, attachments, stamp } = finding
  const layers = car.repairs.get(repairId)?.plan.layers ?? []
  return {
    id,
    repairId,
    layer: layers.find((layer) => layer.layerId === layerId)?.name ?? null,
    kind,
    grade,
    extent,
    needs,
    at: stamp.happened,
    by: stampName(stamp, nameOf),
    photos: photoViews(car, attachments, nameOf),
  }
}

/** Variations that were answered by closing a repair as found. */
const closedAsFoundFor = perRevision(
  (car): ReadonlySet<VariationId | null> =>
    new Set([...car.repairs.values()].flatMap(({ closedAsFound }) => closedAsFound?.variationId ?? [])),
)
