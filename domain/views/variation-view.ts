import type { CarState, VariationState } from '../car.ts'
import type { VariationId } from '../ids.ts'
import { perRevision } from '../value/per-revision.ts'
import { targetKey } from '../value/target.ts'
import { photoViews } from './photo-view.ts'
import { stampName, type ViewContext } from './view-context.ts'
import type { HoursBand, VariationCostView } from './variation-shapes.ts'
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
    decidedBy: decided === null ? '' : stampName(decided, nameOf),
    decidedHow: decided?.how ?? '',
    decidedNote: decided?.note ?? '',
    changed: decided?.changed ?? false,
    settledReason: settled?.reason ?? '',
    hours: lines.reduce((sum, { hours }) => sum + hours, 0),
    asked: bandOf(variation.asked),
    lines: lineViews(car, variation),
    costs: costViews(variation),
    findings: variation.findings.flatMap((findingId) => {
      const finding = car.findings.get(findingId)
      return finding === undefined ? [] : [findingView(car, finding, context)]
    }),
    photos: photoViews(car, variation.attachments, nameOf),
    closedAsFound: closedAsFoundFor(car).has(id),
  }
}

/** One for each gate or task that was asked for, with what counts of it. */
function lineViews(car: CarState, { asked, lines }: VariationState): VariationView['lines'] {
  const own = Map.groupBy(asked, ({ target }) => targetKey(target))
  return [...own].flatMap(([key, [first, ...more]]) => {
    if (first === undefined) return []
    const { target } = first
    const counted = lines.filter((line) => targetKey(line.target) === key)
    return {
      what: targetWords(car, target),
      target,
      hours: counted.reduce((sum, { hours }) => sum + hours, 0),
      asked: bandOf([first, ...more]),
      repairId: target.kind === 'gate' ? target.repairId : null,
    }
  })
}

const bandOf = (lines: VariationState['asked']): HoursBand =>
  lines.reduce(
    (sum, { low, hours, high }) => ({
      low: sum.low + low,
      likely: sum.likely + hours,
      high: sum.high + high,
    }),
    { low: 0, likely: 0, high: 0 },
  )

const costViews = ({ askedCosts, costs }: VariationState): readonly VariationCostView[] =>
  askedCosts.map(({ costId, kind, name, amount }) => ({
    costId,
    kind,
    name,
    asked: amount,
    amount: costs.find((cost) => cost.costId === costId)?.amount ?? 0,
  }))

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
export const closedAsFoundFor = perRevision(
  (car): ReadonlySet<VariationId | null> =>
    new Set([...car.repairs.values()].flatMap(({ closedAsFound }) => closedAsFound?.variationId ?? [])),
)
