import type { CarState, LayerState, RepairState } from '../car.ts'
import { gatesBefore, type Gate } from '../gates.ts'
import { joinWords } from '../text/words.ts'
import { linkClash, linkGraphOf } from '../links/clashes.ts'
import { isLayerPhotographed } from './evidence.ts'
import { hold, type Hold } from './hold.ts'
import {
  coversOf,
  descendants,
  isActive,
  isDone,
  isFinished,
  isLifted,
  loadBearingOpen,
  openAway,
  standsOpen,
} from './standing.ts'

/** Order, uncover first, closed in order, support, and a shell that is away. */
export const orderHolds = (car: CarState, repair: RepairState, gate: Gate): readonly Hold[] => [
  ...awayHolds(car, repair),
  ...gateOrderHolds(repair, gate),
  ...uncoverHolds(car, repair),
  ...(gate === 'welded' ? closingHolds(car, repair) : []),
  ...(gate === 'opened' ? openingHolds(car, repair) : []),
]

const awayHolds = (car: CarState, repair: RepairState): readonly Hold[] => {
  const away = openAway(car)
  return away && repair.plan.on === 'shell'
    ? [hold('away', away.id, 'The shell is away; gates wait until it is back.', 'the manager')]
    : []
}

const gateOrderHolds = (repair: RepairState, gate: Gate): readonly Hold[] => {
  const first = gatesBefore(repair.plan, gate).find((before) => !isDone(repair, before))
  return first ? [hold('order', first, `${first} comes first.`, 'the technician')] : []
}

/** No gate is passed or reopened unless every repair that covers this one stands open. */
export const uncoverHolds = (car: CarState, repair: RepairState): readonly Hold[] =>
  coversOf(car, repair.id).flatMap((id) => {
    const over = car.repairs.get(id)
    if (!over || standsOpen(over)) return []
    const state = isDone(over, 'opened') ? 'is closed' : 'is not open yet'
    return [
      hold('uncover first', id, `${over.plan.name} covers it and ${state}.`, 'the technician', {
        otherRepair: id,
      }),
    ]
  })

/** Nothing is covered that has not been repaired, sealed, primed, photographed and signed for. */
export const closingHolds = (car: CarState, repair: RepairState): readonly Hold[] => [
  ...[...descendants(car, repair.id)].flatMap((id) => {
    const under = car.repairs.get(id)
    if (!under || !isActive(under) || isFinished(under)) return []
    return [
      hold('closed in order', id, `${under.plan.name} behind it is not finished.`, 'the technician', {
        otherRepair: id,
      }),
    ]
  }),
  ...[...repair.layers.values()].slice(0, -1).flatMap((layer) => layerHold(car, repair, layer)),
]

const layerHold = (car: CarState, repair: RepairState, layer: LayerState): readonly Hold[] => {
  const missing = layer.closedOver ? [] : layerMissing(car, repair, layer)
  const name = repair.plan.layers.find(({ layerId }) => layerId === layer.id)?.name ?? 'layer'
  return missing.length === 0
    ? []
    : [
        hold(
          'closed in order',
          layer.id,
          `The ${name} behind it is not ${joinWords(missing)}.`,
          'the technician',
        ),
      ]
}

/** What a layer still lacks before the next may close over it; a gate that is not needed asks nothing of its layers. */
export const layerMissing = (car: CarState, repair: RepairState, layer: LayerState): readonly string[] => {
  const needed = (gate: Gate) => repair.gates[gate].status !== 'not needed'
  const seen = layer.grade !== 'not seen'
  const toRepair = layer.decision !== null && layer.decision !== 'keep'
  return [
    ...(needed('assessed') && layer.graded === null ? ['graded'] : []),
    ...(needed('fabricated') && toRepair && layer.repaired === null ? ['repaired'] : []),
    ...(needed('primed') && seen && layer.coated === null ? ['coated'] : []),
    ...(seen && !isLayerPhotographed(car, repair, layer.id) ? ['photographed'] : []),
  ]
}

const openingHolds = (car: CarState, repair: RepairState): readonly Hold[] => {
  const holds = supportHolds(car, repair)
  return holds.length > 0 ? holds : deadEndHolds(car, repair)
}

/**
 * Opening this repair now would leave no order of work: what lies behind open metal on another side could not be opened
 * any more, and this one could not close before it. Judged like a new link, as if the repair stood open already.
 */
const deadEndHolds = (car: CarState, repair: RepairState): readonly Hold[] => {
  const now = linkGraphOf(car)
  const node = now.nodes.get(repair.id)
  if (!node || linkClash(now)) return []
  const clash = linkClash({ ...now, nodes: new Map(now.nodes).set(repair.id, { ...node, open: true }) })
  return clash
    ? [
        hold(
          'support',
          'dead-end',
          `Opened now, it would leave no order of work: ${clash.words}`,
          'the technician, by finishing the other side first',
        ),
      ]
    : []
}

/** One side's load-bearing repairs stand open at a time; the centre counts as a third side. */
export const supportHolds = (car: CarState, repair: RepairState): readonly Hold[] =>
  repair.plan.loadBearing && repair.plan.on === 'shell'
    ? loadBearingOpen(car)
        .filter(
          (other) =>
            other.id !== repair.id &&
            other.plan.zone.side !== repair.plan.zone.side &&
            !isLifted(car, repair.id, other.id),
        )
        .map((other) =>
          hold(
            'support',
            other.id,
            `${other.plan.name} on the ${sideWords(other)} stands open; the shell would lose both sides.`,
            'the manager, saying how the shell is held',
            { otherRepair: other.id },
          ),
        )
    : []

const sideWords = (repair: RepairState): string =>
  repair.plan.zone.side === 'centre' ? 'centre' : `${repair.plan.zone.side} side`
