import type { CarState, RepairState } from '../car.ts'
import type { Gate } from '../gates.ts'
import type { RepairId, VisitId } from '../ids.ts'
import { depthOf, isFinished, nextGate, standingFaults, standsOpen } from '../rules/standing.ts'
import { repairHours, visitFigures } from '../value/hours.ts'
import { perRevision } from '../value/per-revision.ts'
import { targetKey } from '../value/target.ts'
import { GATES } from '../gates.ts'
import { gateMarks } from './gate-marks.ts'
import { gateHoldViews, isStanding } from './hold-view.ts'
import type { HoldView, RepairCard } from './shared-views.ts'
import type { ViewContext } from './view-context.ts'

/** A repair's next gate with every hold on it, released ones too. */
export interface NextGate {
  readonly gate: Gate | null
  readonly holds: readonly HoldView[]
}

export function nextGateOf(car: CarState, repair: RepairState, context: ViewContext): NextGate {
  const gate = nextGate(repair)
  return { gate, holds: gate === null ? [] : gateHoldViews(car, repair, gate, context) }
}

/** `next` is given where it is known already: holds are the dear part of a card. */
export function repairCard(
  car: CarState,
  repair: RepairState,
  context: ViewContext,
  next: NextGate = nextGateOf(car, repair, context),
): RepairCard {
  const { id, plan, payer } = repair
  return {
    id,
    name: plan.name,
    zone: plan.zone,
    onPart: plan.on === 'part',
    loadBearing: plan.loadBearing,
    outer: plan.outer,
    payer,
    marks: gateMarks(repair, next.holds, context.nameOf),
    next: next.gate,
    holds: next.holds.filter(isStanding),
    hours: repairHours(car, figuresVisit(car, repair, context), id, context),
    depth: depthOf(car, id),
    standsOpen: standsOpen(repair),
    finished: isFinished(repair),
    closedAsFound: repair.closedAsFound !== null,
    retired: repair.retired !== null,
    faults: faultsByRepair(car).get(id) ?? [],
  }
}

/** The visit whose figures a repair shows: the current one where it has any, else the one it was added in. */
export function figuresVisit(car: CarState, repair: RepairState, context: ViewContext): VisitId {
  const current = car.currentVisit
  if (current === null || current === repair.visitId) return repair.visitId
  const figures = visitFigures(car, current, context)
  const has = GATES.some((gate) => figures.has(targetKey({ kind: 'gate', repairId: repair.id, gate })))
  return has ? current : repair.visitId
}

export const carFaults = perRevision(standingFaults)

const faultsByRepair = perRevision((car): ReadonlyMap<RepairId, readonly string[]> => {
  const faults = new Map<RepairId, string[]>()
  for (const { repairId, otherId, words } of carFaults(car))
    for (const id of [repairId, otherId]) {
      const known = faults.get(id)
      if (known === undefined) faults.set(id, [words])
      else known.push(words)
    }
  return faults
})
