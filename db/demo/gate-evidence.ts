import type { FitGroupState, RepairState } from '../../domain/car.ts'
import type { EdgeReading } from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import { readingIdSchema, type RepairId } from '../../domain/ids.ts'
import type { Ask } from '../../domain/rules/asks.ts'
import { groupsOf, lastFullFitUp } from '../../domain/rules/fit-holds.ts'
import { activeRepairs } from '../../domain/rules/standing.ts'
import { windowHolds } from '../../domain/rules/time-holds.ts'
import { localDateOf } from '../../domain/time/zone.ts'
import {
  carOf,
  gateServes,
  namesInCaption,
  namesOnSlate,
  repairOf,
  send,
  takePhoto,
  unmetAsks,
  type Act,
} from './act.ts'
import { isSameZone } from './demo-car.ts'
import { gradeLayers, markCoated, markRepaired, takeLayerPhotos } from './layer-evidence.ts'
import type { DemoPhotoKind } from './photos/scenes.ts'

/**
 * Brings everything that a gate asks for on the given repairs, as the rules tell it: what is asked for is not known here.
 * @throws when something is still asked for afterwards
 */
export function bringEvidence(act: Act, repairIds: readonly RepairId[], gate: Gate): void {
  if (gate === 'assessed') for (const id of repairIds) gradeLayers(act, id)
  takeGatePhoto(act, repairIds, gate)
  takeLayerPhotos(act, repairIds, gate)
  if (gate === 'fabricated') for (const id of repairIds) markRepaired(act, id)
  if (isAsked(act, repairIds, gate, 'conditions')) readConditions(act, repairIds, gate)
  if (isAsked(act, repairIds, gate, 'drains'))
    send(act, 'checkDrains', { readingId: readingId(act), repairIds: [...repairIds], note: '' })
  if (gate === 'primed') for (const id of repairIds) markCoated(act, id)
  if (gate === 'trial-fitted')
    for (const group of groupsToFit(act, repairIds)) recordFitUp(act, group, 'full')
  for (const id of repairIds) bringReadings(act, id, gate)
  for (const id of repairIds) prepareLateSurface(act, id, gate)
  const left = repairIds.flatMap((id) => unmetAsks(act, id, gate))
  if (left.length > 0)
    throw new Error(
      `${gate} on ${act.demo.name} still asks for: ${left.map(({ words }) => words).join('; ')}`,
    )
}

/** The photo before cutting, taken when the work begins: it shows the whole corner, with all that will be opened there. */
export function takePhotoBefore(act: Act, repairId: RepairId, gate: Gate): void {
  if (!isAsked(act, [repairId], gate, 'photo before')) return
  const { plan } = repairOf(act, repairId)
  const { side, place } = plan.zone
  const corner = activeRepairs(carOf(act))
    .filter((other) => other.plan.on === plan.on && isSameZone(other.plan.zone, plan.zone))
    .map(({ id }) => id)
    .filter((id) => isAsked(act, [id], 'opened', 'photo before'))
  takePhoto(act, {
    kind: act.stage.random.pick(['body colour', 'filler', 'surface rust']),
    caption: plan.on === 'part' ? `${plan.name} before cutting` : `${side} ${place} before cutting`,
    slate: plan.on === 'part' ? plan.name : `${side} ${place}`,
    serves: gateServes(corner, 'opened', 'before'),
  })
}

/** A fit-up whose readings are all inside; `off` moves the first edge that far out, in mm. */
export function recordFitUp(
  act: Act,
  group: FitGroupState,
  kind: 'dry' | 'full' | 'check',
  bad: { readonly off: number; readonly note: string } | null = null,
): void {
  const { edges } = group.plan
  const readings = edges.map(({ edgeId, nominalMm, toleranceMm }, index): EdgeReading => {
    const middle = nominalMm + (index === 0 ? (bad?.off ?? 0) : 0)
    const gap = () => Math.round((middle + act.stage.random.between(-0.6, 0.6) * toleranceMm) * 10) / 10
    return {
      edgeId,
      gapsMm: [gap(), gap(), gap(), gap()],
      flushMm: Math.round(act.stage.random.between(-0.6, 0.6) * 10) / 10,
    }
  })
  const reading = { readingId: readingId(act), groupId: group.id, kind, readings }
  send(act, 'recordFitUp', { ...reading, good: bad === null, note: bad?.note ?? '' })
}

/** The fit groups of these repairs that have no good fit-up yet. */
export function groupsToFit(act: Act, repairIds: readonly RepairId[]): readonly FitGroupState[] {
  const car = carOf(act)
  const groups = new Set(repairIds.flatMap((id) => groupsOf(car, id)))
  return [...groups].filter((group) => lastFullFitUp(group)?.good !== true)
}

const readingId = ({ stage }: Act) => readingIdSchema.parse(stage.id('reading'))

const isAsked = (act: Act, ids: readonly RepairId[], gate: Gate, kind: Ask['kind']): boolean =>
  ids.some((id) => unmetAsks(act, id, gate).some((ask) => ask.kind === kind))

/** One photo of the gate for all the repairs that want one. */
function takeGatePhoto(act: Act, repairIds: readonly RepairId[], gate: Gate): void {
  const wanting = repairIds.filter((id) => isAsked(act, [id], gate, 'photo')).map((id) => repairOf(act, id))
  const [first] = wanting
  if (!first) return
  const names = wanting.map(({ plan }) => plan.name)
  takePhoto(act, {
    kind: gatePhotoKind(act, first, gate),
    caption: `${namesInCaption(names)}: ${gate}`,
    slate: namesOnSlate(names),
    serves: gateServes(
      wanting.map(({ id }) => id),
      gate,
      gate === 'opened' ? 'after' : 'work',
    ),
  })
}

function gatePhotoKind({ demo }: Act, { plan }: RepairState, gate: Gate): DemoPhotoKind {
  switch (gate) {
    case 'opened':
      return 'cut open'
    case 'assessed':
      return 'pitted'
    case 'fabricated':
      return 'section fitted'
    case 'sealed':
      return 'seam sealer'
    case 'primed':
      return demo.primer
    case 'trial-fitted':
      return plan.outer ? 'panel gap' : 'section fitted'
    case 'welded':
      return weldPhoto[plan.welds.at(-1)?.kind ?? 'plug']
    case 'painted':
      return plan.outer ? demo.primer : 'body colour'
  }
}

const weldPhoto = { spot: 'spot welds', plug: 'plug welds', seam: 'seam weld' } as const

/** A dry hall, colder in winter; the steel follows the air. */
function readConditions(act: Act, repairIds: readonly RepairId[], gate: Gate): void {
  const { stage } = act
  const month = Number(localDateOf(stage.now(), stage.zone).slice(5, 7))
  const airC = Math.round((month >= 5 && month <= 9 ? 20 : 16) * 10 + stage.random.between(-20, 20)) / 10
  send(act, 'readConditions', {
    readingId: readingId(act),
    repairIds: [...repairIds],
    gate,
    airC,
    humidityPercent: Math.round(stage.random.between(48, 64)),
    steelC: Math.round((airC - stage.random.between(0.2, 1.2)) * 10) / 10,
  })
}

/** Dimensions, gaps read again and welds. */
function bringReadings(act: Act, repairId: RepairId, gate: Gate): void {
  const asks = unmetAsks(act, repairId, gate)
  const car = carOf(act)
  for (const { subject } of asks.filter(({ kind }) => kind === 'dimension')) {
    const dimension = [...car.dimensions.values()].find(({ id }) => id === subject)
    if (!dimension) continue
    const { mm, stood, doorsHung } = dimension.asFound
    const drift = Math.round(act.stage.random.between(-0.5, 0.5) * dimension.limitMm * 2) / 2
    send(act, 'readDimension', {
      readingId: readingId(act),
      dimensionId: dimension.id,
      mm: mm + drift,
      stood,
      doorsHung,
    })
  }
  for (const { subject } of asks.filter(({ kind }) => kind === 'fit-up')) {
    const group = [...car.fitGroups.values()].find(({ id }) => id === subject)
    if (group) recordFitUp(act, group, 'check')
  }
  if (asks.some(({ kind }) => kind === 'welds')) countWelds(act, repairOf(act, repairId))
}

function countWelds(act: Act, repair: RepairState): void {
  send(act, 'countWelds', {
    readingId: readingId(act),
    repairId: repair.id,
    welds: repair.plan.welds.map(({ jointId, kind, planned }) => ({
      jointId,
      done: planned + Math.round(act.stage.random.between(0, kind === 'seam' ? 25 : 2)),
    })),
  })
}

/** Past its window a surface is abraded again and photographed. */
function prepareLateSurface(act: Act, repairId: RepairId, gate: Gate): void {
  const repair = repairOf(act, repairId)
  const { stage } = act
  const context = { at: stage.now(), workshop: stage.workshop(), did: null }
  if (windowHolds(repair, gate, context).length === 0) return
  const attachmentId = takePhoto(act, {
    kind: 'bare steel',
    caption: `${repair.plan.name}: abraded again before it is ${gate}`,
    slate: repair.plan.name,
    serves: gateServes([repairId], gate, 'prepared'),
  })
  send(act, 'prepareSurface', { repairId, gate, attachmentId })
}
