import type { CarDraft, Repair, Stamp } from '../car.ts'
import type { Fact, PayloadOf } from '../facts.ts'
import type { RepairPlan } from '../facts/shapes.ts'
import { eachGate, type Gate } from '../gates.ts'
import type { GateRecord, Layer } from '../car.ts'
import type { LineId, RepairId, VisitId } from '../ids.ts'
import { lineIdSchema } from '../ids.ts'

export const applyRepairFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'repairAdded': {
      const { repairId, plan, payer, type } = fact.payload
      if (fact.visitId) addRepair(car, createRepair(repairId, fact.visitId, plan, payer, type, stamp))
      return
    }
    case 'hoursTaken': {
      const { repairId, ...taken } = fact.payload
      const repair = car.repairs.get(repairId)
      if (repair) repair.taken = taken
      return
    }
    case 'repairChanged': {
      const repair = car.repairs.get(fact.payload.repairId)
      if (!repair) return
      repair.plan = fact.payload.plan
      repair.typeVersion = fact.payload.typeVersion ?? repair.typeVersion
      repair.layers = layersOf(fact.payload.plan, repair.layers)
      addPlannedParts(car, repair, stamp)
      return
    }
    case 'repairRetired':
      return retireRepair(car, fact.payload.repairId, { stamp, reason: fact.payload.reason, into: null })
    case 'repairSplit':
      return splitRepair(car, fact.payload, stamp)
    case 'repairsMerged':
      return mergeRepairs(car, fact.payload, stamp)
    case 'coverLinked':
      return linkCover(car, fact.payload.over, fact.payload.under, stamp)
    case 'coverUnlinked': {
      const { over, under } = fact.payload
      car.covers = car.covers.filter((cover) => cover.over !== over || cover.under !== under)
      return
    }
    case 'fitGroupSet': {
      const group = car.fitGroups.get(fact.payload.groupId)
      if (!group)
        car.fitGroups.set(fact.payload.groupId, {
          id: fact.payload.groupId,
          plan: fact.payload,
          fitUps: [],
          staleFrom: 0,
        })
      else {
        // Another member or another edge was not in what was offered up before.
        group.plan = fact.payload
        group.staleFrom = stamp.number
      }
      return
    }
    case 'fitGroupDissolved':
      car.fitGroups.delete(fact.payload.groupId)
      return
    default:
      return
  }
}

const openGate = (): GateRecord => ({
  status: 'open',
  done: null,
  reopened: null,
  evidenceFloor: 0,
  firstPassed: null,
})

const createRepair = (
  id: RepairId,
  visitId: VisitId,
  plan: RepairPlan,
  payer: Repair['payer'],
  type: PayloadOf<'repairAdded'>['type'],
  stamp: Stamp,
): Repair => ({
  id,
  visitId,
  from: null,
  added: stamp,
  typeId: type?.typeId ?? null,
  typeVersion: type?.version ?? null,
  plan,
  payer,
  outside: null,
  layers: layersOf(plan, new Map()),
  gates: eachGate(openGate),
  reviewed: null,
  taken: null,
  stated: [],
  drainsChecked: [],
  welds: [],
  prepared: [],
  releases: [],
  releasedSpells: [],
  closedAsFound: null,
  retired: null,
})

const layersOf = (plan: RepairPlan, known: ReadonlyMap<string, Layer>): Repair['layers'] =>
  new Map(plan.layers.map(({ layerId }) => [layerId, known.get(layerId) ?? unseenLayer(layerId)]))

const unseenLayer = (id: Layer['id']): Layer => ({
  id,
  grade: null,
  judgedBy: null,
  remainingMm: null,
  decision: null,
  graded: null,
  repaired: null,
  coated: null,
  closedOver: null,
})

const addRepair = (car: CarDraft, repair: Repair): void => {
  car.repairs.set(repair.id, repair)
  addPlannedParts(car, repair, repair.added)
}

const addPlannedParts = (car: CarDraft, repair: Repair, stamp: Stamp): void => {
  for (const { partId, name, gate } of repair.plan.parts)
    if (!car.parts.has(partId))
      car.parts.set(partId, {
        id: partId,
        repairId: repair.id,
        gate,
        name,
        state: 'needed',
        since: stamp.happened,
        expected: null,
        reason: '',
      })
}

const linkCover = (car: CarDraft, over: RepairId, under: RepairId, stamp: Stamp): void => {
  if (over === under || car.covers.some((cover) => cover.over === over && cover.under === under)) return
  car.covers.push({ over, under, stamp })
}

/** What covered the retired repair covers what it covered: the metal between is gone from the books, not from the car. */
const retireRepair = (car: CarDraft, id: RepairId, retired: NonNullable<Repair['retired']>): void => {
  const repair = car.repairs.get(id)
  if (!repair) return
  repair.retired = retired
  const above = car.covers.filter((cover) => cover.under === id).map((cover) => cover.over)
  const below = car.covers.filter((cover) => cover.over === id).map((cover) => cover.under)
  car.covers = car.covers.filter((cover) => cover.over !== id && cover.under !== id)
  for (const over of above) for (const under of below) linkCover(car, over, under, retired.stamp)
  for (const group of car.fitGroups.values())
    group.plan = { ...group.plan, members: group.plan.members.filter((member) => member !== id) }
}

const splitRepair = (car: CarDraft, payload: PayloadOf<'repairSplit'>, stamp: Stamp): void => {
  const old = car.repairs.get(payload.repairId)
  if (!old) return
  const type = null
  const fresh = createRepair(payload.newRepairId, old.visitId, payload.plan, old.payer, type, stamp)
  addRepair(car, { ...fresh, from: old.from, taken: old.taken })
  copyLinks(car, old.id, payload.newRepairId, stamp)
  for (const group of car.fitGroups.values())
    if (group.plan.members.includes(old.id)) {
      group.plan = { ...group.plan, members: [...group.plan.members, payload.newRepairId] }
      group.staleFrom = stamp.number
    }
  moveHours(car, old.id, payload.newRepairId, payload.moves)
}

/** What covers one repair, or is covered by it, does the same with the other. */
const copyLinks = (car: CarDraft, from: RepairId, to: RepairId, stamp: Stamp): void => {
  for (const { over } of car.covers.filter((cover) => cover.under === from)) linkCover(car, over, to, stamp)
  for (const { under } of car.covers.filter((cover) => cover.over === from)) linkCover(car, to, under, stamp)
}

const mergeRepairs = (car: CarDraft, payload: PayloadOf<'repairsMerged'>, stamp: Stamp): void => {
  const { repairId, into } = payload
  copyLinks(car, repairId, into, stamp)
  for (const group of car.fitGroups.values())
    if (group.plan.members.includes(repairId)) {
      const members = [...new Set(group.plan.members.map((member) => (member === repairId ? into : member)))]
      group.plan = { ...group.plan, members }
      group.staleFrom = stamp.number
    }
  moveHours(car, repairId, into, payload.moves)
  retireRepair(car, repairId, { stamp, reason: payload.reason, into })
}

/** Estimate lines of a repair's gate are known by an id made of both, so that the same line is found again. */
export const gateLineId = (repairId: RepairId, gate: Gate): LineId =>
  lineIdSchema.parse(`${repairId.slice(0, 40)}-${gate}`)

const moveHours = (
  car: CarDraft,
  from: RepairId,
  to: RepairId,
  moves: PayloadOf<'repairSplit'>['moves'],
): void => {
  const lines = car.currentVisit && car.visits.get(car.currentVisit)?.lines
  if (!lines) return
  const lineOn = (repairId: RepairId, gate: Gate) =>
    [...lines.values()].find(
      ({ target }) => target.kind === 'gate' && target.repairId === repairId && target.gate === gate,
    )
  for (const { gate, hours } of moves) {
    const source = lineOn(from, gate)
    if (!source) continue
    source.moved -= hours
    const target = lineOn(to, gate)
    if (target) {
      target.moved += hours
      continue
    }
    const lineId = gateLineId(to, gate)
    const none = { shortest: 0, likely: 0, longest: 0 }
    const line = {
      lineId,
      target: { kind: 'gate' as const, repairId: to, gate },
      hours: none,
      agreed: 0,
      payer: source.payer,
    }
    lines.set(lineId, { ...line, baseline: line, by: source.by, accepted: source.accepted, moved: hours })
  }
}
