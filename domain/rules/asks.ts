import type { CarState, LayerState, RepairState } from '../car.ts'
import type { EdgePlan, GateAsks } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'
import type { LayerId, RepairId } from '../ids.ts'
import { compareDimension } from '../measure/dimensions.ts'
import { judgeConditions } from '../measure/dew-point.ts'
import { judgeEdge } from '../measure/gaps.ts'
import { judgeWelds } from '../measure/welds.ts'
import { joinWords, plural } from '../text/words.ts'
import type { AskView } from '../views/view-shapes.ts'
import { counts, evidenceStart, gatePhotos, type GatePhoto } from './evidence.ts'

/** One thing that a gate asks for; `code` says which hold stands while it is not met. */
export interface Ask extends AskView {
  readonly code: 'evidence' | 'conditions'
  readonly clearedBy: string
}

/** What the gate asks for, and what of it is there. Everything is judged by facts, so the moment of asking plays no part. */
export const gateAsks = (car: CarState, repairId: RepairId, gate: Gate): readonly Ask[] => {
  const repair = car.repairs.get(repairId)
  if (!repair) return []
  const asks = repair.plan.gates[gate].asks
  const photos = gatePhotos(car, repair, gate)
  return [
    ...(asks.safety && repair.plan.loadBearing ? safetyAsks(car) : []),
    ...photoAsks(asks, photos),
    ...(gate === 'assessed' ? gradeAsks(repair) : []),
    ...(gate === 'fabricated' ? repairedAsks(repair) : []),
    ...layerPhotoAsks(asks, repair, photos),
    ...(asks.review ? [reviewAsk(repair)] : []),
    ...(asks.drains ? [drainsAsk(repair, gate)] : []),
    ...(asks.conditions ? conditionAsks(car, repair, gate, asks.conditions) : []),
    ...(asks.fitUp && gate !== 'trial-fitted' ? gapAsks(car, repair, gate) : []),
    ...(asks.dimensions ? dimensionAsks(car, repair, gate) : []),
    ...(asks.welds ? weldAsks(repair, gate) : []),
  ]
}

type AskParts = Partial<Pick<Ask, 'layerId' | 'subject' | 'code' | 'clearedBy' | 'photosMissing'>>

const ask = (
  kind: Ask['kind'],
  key: string,
  words: string,
  met: boolean,
  have: string,
  {
    layerId = null,
    subject = null,
    code = 'evidence',
    clearedBy = 'the technician',
    photosMissing = 0,
  }: AskParts = {},
): Ask => ({ kind, key, words, met, have, photosMissing, layerId, subject, code, clearedBy })

const photoAsk = (
  kind: 'photo before' | 'photo' | 'layer photo',
  key: string,
  words: string,
  there: number,
  wanted: number,
  layerId: LayerId | null = null,
): Ask => {
  const photosMissing = Math.max(0, wanted - there)
  const have = `${there} of ${wanted}`
  return ask(kind, key, words, photosMissing === 0, have, { layerId, photosMissing })
}

const safetyAsks = (car: CarState): readonly Ask[] => [
  ...(
    [
      ['bracing', 'The shell is braced'],
      ['battery', 'The battery is disconnected'],
      ['fuel', 'Fuel tank and lines are removed or purged'],
    ] as const
  ).map(([item, words]) =>
    ask('safety', `safety-${item}`, words, car.safety[item], car.safety[item] ? 'stands' : 'not stated', {
      subject: item,
    }),
  ),
  ask(
    'safety',
    'safety-dimensions',
    'Reference dimensions are read as found',
    car.dimensions.size > 0,
    car.dimensions.size > 0 ? `${car.dimensions.size} read` : 'none read',
    { subject: 'dimensions' },
  ),
]

const photoAsks = (asks: GateAsks, photos: readonly GatePhoto[]): readonly Ask[] => {
  const before = new Set(photos.filter(({ shows }) => shows === 'before').map((each) => each.attachment.id))
    .size
  const after = new Set(photos.filter(({ shows }) => isOfWork(shows)).map((each) => each.attachment.id)).size
  return [
    ...(asks.photosBefore > 0
      ? [
          photoAsk(
            'photo before',
            'photo-before',
            photoWords(asks.photosBefore, 'before cutting'),
            before,
            asks.photosBefore,
          ),
        ]
      : []),
    ...(asks.photos > 0
      ? [
          photoAsk(
            'photo',
            'photo',
            photoWords(asks.photos, asks.photosBefore > 0 ? 'after' : ''),
            after,
            asks.photos,
          ),
        ]
      : []),
  ]
}

const isOfWork = (shows: string): boolean => shows === 'after' || shows === 'work' || shows === 'layer'

const photoWords = (count: number, when: string): string =>
  `${count === 1 ? 'A photo' : `${count} photos`}${when === '' ? '' : ` ${when}`}`

const layerName = (repair: RepairState, layerId: string): string =>
  repair.plan.layers.find((layer) => layer.layerId === layerId)?.name ?? 'layer'

const gradeAsks = (repair: RepairState): readonly Ask[] => {
  const start = evidenceStart(repair, 'assessed')
  return [...repair.layers.values()].map((layer) => {
    const met = layer.graded !== null && counts(layer.graded, repair.gates.assessed, start)
    const have = met ? `${layer.grade}, ${layer.decision}` : 'not graded yet'
    return ask(
      'layer grade',
      `grade-${layer.id}`,
      `Grade and decision: ${layerName(repair, layer.id)}`,
      met,
      have,
      { layerId: layer.id },
    )
  })
}

const needsRepair = (layer: LayerState): boolean => layer.decision !== null && layer.decision !== 'keep'

const repairedAsks = (repair: RepairState): readonly Ask[] =>
  [...repair.layers.values()]
    .filter(needsRepair)
    .map((layer) =>
      ask(
        'layer repaired',
        `repaired-${layer.id}`,
        `Repaired: ${layerName(repair, layer.id)} (${layer.decision})`,
        layer.repaired !== null,
        layer.repaired ? 'repaired' : 'not said yet',
        { layerId: layer.id },
      ),
    )

const layerPhotoAsks = (
  asks: GateAsks,
  repair: RepairState,
  photos: readonly GatePhoto[],
): readonly Ask[] => {
  if (asks.layerPhotos === 'none') return []
  const wanted = [...repair.layers.values()].filter((layer) =>
    asks.layerPhotos === 'graded' ? layer.grade !== 'not seen' : needsRepair(layer),
  )
  return wanted.map((layer) => {
    const count = photos.filter((photo) => photo.layerId === layer.id).length
    const words = `A photo of the ${layerName(repair, layer.id)}`
    return photoAsk('layer photo', `photo-${layer.id}`, words, count, 1, layer.id)
  })
}

const reviewAsk = (repair: RepairState): Ask =>
  ask(
    'review',
    'review',
    "The manager's review of the estimate",
    repair.reviewed !== null,
    repair.reviewed ? 'reviewed' : 'not reviewed yet',
    { clearedBy: 'the manager' },
  )

const drainsAsk = (repair: RepairState, gate: Gate): Ask => {
  const start = evidenceStart(repair, gate)
  const met = repair.drainsChecked.some((stamp) => counts(stamp, repair.gates[gate], start))
  return ask('drains', 'drains', 'Every drain path is open', met, met ? 'checked' : 'not checked yet')
}

const conditionAsks = (
  car: CarState,
  repair: RepairState,
  gate: Gate,
  limits: NonNullable<GateAsks['conditions']>,
): readonly Ask[] => {
  const start = evidenceStart(repair, gate)
  const words = 'Air temperature, humidity and steel temperature'
  const reading = car.conditions.findLast(
    (each) =>
      each.gate === gate &&
      each.repairIds.includes(repair.id) &&
      counts(each.stamp, repair.gates[gate], start),
  )
  if (!reading) return [ask('conditions', 'conditions', words, false, 'not read yet')]
  const { inside, problems } = judgeConditions(reading, limits)
  const have = inside ? 'inside the limits' : joinWords(problems)
  return [ask('conditions', 'conditions', words, inside, have, { code: inside ? 'evidence' : 'conditions' })]
}

/** After welding the gaps are read again; a group without edges has nothing to read. */
const gapAsks = (car: CarState, repair: RepairState, gate: Gate): readonly Ask[] => {
  const start = evidenceStart(repair, gate)
  return [...car.fitGroups.values()]
    .filter((group) => group.plan.members.includes(repair.id) && group.plan.edges.length > 0)
    .map((group) => {
      const last = group.fitUps.findLast(
        (fitUp) => fitUp.kind === 'check' && counts(fitUp.stamp, repair.gates[gate], start),
      )
      const problems = last ? edgeProblems(group.plan.edges, last) : []
      const met = last !== undefined && problems.length === 0
      const have = last === undefined ? 'not read yet' : met ? 'inside' : joinWords(problems)
      return ask('fit-up', `gaps-${group.id}`, `Gaps of the ${group.plan.name} read again`, met, have, {
        subject: group.id,
      })
    })
}

export interface EdgeRead {
  readonly edgeId: string
  readonly gapsMm: readonly number[]
  readonly flushMm: number
}

/** Why the readings of a fit-up are outside their tolerances; an edge that was not read is a reason too. */
export const edgeProblems = (
  edges: readonly EdgePlan[],
  fitUp: { readonly readings: readonly EdgeRead[] },
): readonly string[] =>
  edges.flatMap((edge) => {
    const reading = fitUp.readings.find(({ edgeId }) => edgeId === edge.edgeId)
    if (!reading) return [`${edge.name}: not read`]
    return judgeEdge(reading, edge).problems.map((problem) => `${edge.name}: ${problem}`)
  })

const dimensionAsks = (car: CarState, repair: RepairState, gate: Gate): readonly Ask[] => {
  const start = evidenceStart(repair, gate)
  const { side } = repair.plan.zone
  return [...car.dimensions.values()]
    .filter((dimension) => side === 'centre' || dimension.side === 'centre' || dimension.side === side)
    .map((dimension) => {
      const last = dimension.readings.findLast((reading) => counts(reading.stamp, repair.gates[gate], start))
      const key = `dimension-${dimension.id}`
      const subject = dimension.id
      if (!last) return ask('dimension', key, dimension.name, false, 'not read yet', { subject })
      const compared = compareDimension(dimension, last)
      if (compared.kind === 'not comparable')
        return ask('dimension', key, dimension.name, false, compared.reason, { subject })
      return ask('dimension', key, dimension.name, compared.inside, compared.words, { subject })
    })
}

const weldAsks = (repair: RepairState, gate: Gate): readonly Ask[] => {
  const start = evidenceStart(repair, gate)
  const last = repair.welds.findLast((count) => counts(count.stamp, repair.gates[gate], start))
  return repair.plan.welds.map((joint) => {
    const done = last?.welds.find(({ jointId }) => jointId === joint.jointId)?.done ?? 0
    const { inside, problems } = judgeWelds([{ ...joint, done }])
    const unit = joint.kind === 'seam' ? ' mm' : ''
    // The words before it name the joint already.
    const missing = joinWords(problems).replace(`${joint.name}: `, '')
    const have = inside ? `${done} of ${joint.planned}${unit}` : missing
    const planned =
      joint.kind === 'seam' ? `${joint.planned} mm of seam` : plural(`${joint.kind} weld`, joint.planned)
    return ask('welds', `weld-${joint.jointId}`, `${joint.name}: ${planned}`, inside, have, {
      subject: joint.jointId,
    })
  })
}
