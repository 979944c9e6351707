import type { CarDraft, GateRecord, Moment, Repair, Stamp } from '../car.ts'
import type { Fact, PayloadOf } from '../facts.ts'
import type { ReworkCause } from '../facts/shapes.ts'
import { gatesFrom, type Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { NO_MARKS } from '../photo-marks/photo-marks.ts'
import { dropLeft } from './apply-plan.ts'
import { flagRework } from './apply-time.ts'

/** Gates, holds, photos, readings, findings and parts. */
export const applyWorkFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'gatePassed':
      return passGate(car, fact.payload, stamp)
    case 'gateNotNeeded': {
      const repair = car.repairs.get(fact.payload.repairId)
      if (!repair) return
      const record = repair.gates[fact.payload.gate]
      endReleased(repair, fact.payload.gate, stamp.happened)
      record.status = 'not needed'
      record.done = { kind: 'not needed', stamp, reason: fact.payload.reason }
      return
    }
    case 'gateReopened': {
      const { repairId, gate, cause, reason } = fact.payload
      return reopenGate(car, repairId, gate, { stamp, cause, reason })
    }
    case 'holdReleased': {
      const { repairId, gate, code, subject, reason } = fact.payload
      car.repairs.get(repairId)?.releases.push({ gate, code, subject, reason, stamp, asked: false })
      return
    }
    case 'releaseAsked': {
      const { repairId, gate, code, subject, reason } = fact.payload
      car.repairs.get(repairId)?.releases.push({ gate, code, subject, reason, stamp, asked: true })
      return
    }
    case 'holdSet': {
      const { holdId, ...hold } = fact.payload
      car.holds.set(holdId, { id: holdId, ...hold, stamp, cleared: null })
      return
    }
    case 'holdCleared': {
      const hold = car.holds.get(fact.payload.holdId)
      if (hold) hold.cleared = stamp
      return
    }
    case 'supportLifted': {
      const { liftId, repairIds, how } = fact.payload
      car.lifts.set(liftId, { id: liftId, repairIds, how, stamp, ended: null })
      return
    }
    case 'taskSigned': {
      const task = car.tasks.get(fact.payload.taskId)
      if (!task) return
      task.status = 'passed'
      task.firstPassed ??= stamp.happened
      flagRework(car, { kind: 'task', taskId: task.id })
      task.done = { stamp, did: fact.payload.did, note: fact.payload.note }
      return
    }
    case 'taskNotNeeded': {
      const task = car.tasks.get(fact.payload.taskId)
      if (!task) return
      task.status = 'not needed'
      task.done = { stamp, did: [], note: fact.payload.reason }
      return
    }
    case 'taskReopened': {
      const task = car.tasks.get(fact.payload.taskId)
      if (!task) return
      task.status = 'open'
      task.done = null
      task.reopened = { stamp, cause: fact.payload.cause }
      return
    }
    default:
      return applyEvidenceFact(car, fact, stamp)
  }
}

const applyEvidenceFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'photoAttached':
      return attachPhoto(car, fact.payload, fact.visitId, stamp)
    case 'captionSet': {
      const attachment = car.attachments.get(fact.payload.attachmentId)
      if (attachment) attachment.caption = fact.payload.caption
      return
    }
    case 'photoShowsSet': {
      const attachment = car.attachments.get(fact.payload.attachmentId)
      if (attachment) attachment.serves = fact.payload.serves
      return
    }
    case 'photoMarked': {
      const attachment = car.attachments.get(fact.payload.attachmentId)
      if (attachment) attachment.marks = fact.payload.marks
      return
    }
    case 'outsideGraded': {
      const { repairId, grade, note } = fact.payload
      const repair = car.repairs.get(repairId)
      if (repair) repair.outside = { grade, note, stamp }
      return
    }
    case 'layerGraded': {
      const { repairId, layerId, ...grade } = fact.payload
      const layer = car.repairs.get(repairId)?.layers.get(layerId)
      if (layer) Object.assign(layer, grade, { graded: stamp })
      return
    }
    case 'layersMarked':
      return markLayers(car, fact.payload, stamp)
    case 'findingAdded': {
      const { findingId, ...finding } = fact.payload
      car.findings.set(findingId, { id: findingId, ...finding, visitId: fact.visitId, stamp })
      return
    }
    case 'conditionsRead': {
      const { readingId, ...reading } = fact.payload
      car.conditions.push({ id: readingId, ...reading, stamp })
      return
    }
    case 'drainsChecked':
      for (const id of fact.payload.repairIds)
        car.repairs.get(id)?.drainsChecked.push({ ...stamp, id: fact.payload.readingId })
      return
    case 'weldsCounted': {
      const { repairId, readingId, welds } = fact.payload
      car.repairs.get(repairId)?.welds.push({ id: readingId, welds, stamp })
      return
    }
    case 'fitUpRecorded': {
      const { readingId, groupId, kind, readings, good, note } = fact.payload
      car.fitGroups.get(groupId)?.fitUps.push({ id: readingId, kind, readings, good, note, stamp })
      return
    }
    case 'surfacePrepared':
      car.repairs.get(fact.payload.repairId)?.prepared.push({ gate: fact.payload.gate, stamp })
      return
    case 'partNeeded': {
      const { partId, repairId, gate, name } = fact.payload
      const since = stamp.happened
      car.parts.set(partId, {
        id: partId,
        repairId,
        gate,
        name,
        state: 'needed',
        since,
        expected: null,
        reason: '',
      })
      return
    }
    case 'partMoved': {
      const { partId, state, expected, reason } = fact.payload
      const part = car.parts.get(partId)
      if (part) Object.assign(part, { state, expected, reason, since: stamp.happened })
      return
    }
    default:
      return
  }
}

const passGate = (car: CarDraft, payload: PayloadOf<'gatePassed'>, stamp: Stamp): void => {
  const repair = car.repairs.get(payload.repairId)
  if (!repair) return
  const record = repair.gates[payload.gate]
  endReleased(repair, payload.gate, stamp.happened)
  record.status = 'passed'
  record.firstPassed ??= stamp.happened
  flagRework(car, { kind: 'gate', repairId: repair.id, gate: payload.gate })
  record.done = {
    kind: 'passed',
    stamp,
    did: payload.did,
    second: payload.second,
    asked: payload.asked,
    coat: payload.coat,
    attachments: payload.evidence.attachments,
    released: payload.released,
    note: payload.note,
  }
  if (payload.gate === 'primed') coatOpenLayers(repair, stamp)
  if (payload.gate === 'welded') closeLayersBehindPanel(repair, stamp)
}

/** Passing primed says that bare metal which will be hidden is primed: every layer that is not closed over yet. */
const coatOpenLayers = (repair: Repair, stamp: Stamp): void => {
  for (const layer of repair.layers.values()) if (!layer.closedOver) layer.coated ??= stamp
}

const closeLayersBehindPanel = (repair: Repair, stamp: Stamp): void => {
  for (const layer of [...repair.layers.values()].slice(0, -1))
    layer.closedOver ??= { ...stamp, byWelded: true }
}

/** Takes back the gate and every later one of the repair, with what stood on them. */
export const reopenGate = (
  car: CarDraft,
  repairId: RepairId,
  from: Gate,
  reopened: { readonly stamp: Stamp; readonly cause: ReworkCause; readonly reason: string },
): void => {
  const repair = car.repairs.get(repairId)
  if (!repair) return
  const gates = gatesFrom(repair.plan, from)
  for (const gate of gates) endReleased(repair, gate, reopened.stamp.happened)
  for (const gate of gates) takeBack(repair.gates[gate], gate === from, reopened)
  dropLeft(car, repairId, gates)
  repair.closedAsFound = null
  undoLayers(repair, gates)
  repair.releases = repair.releases.filter((release) => !gates.includes(release.gate))
  if (gates.includes('primed')) makeFitUpsStale(car, repairId, reopened.stamp.number)
}

/** Keeps how long an open gate stood under released holds, as the releases themselves go with a reopening. */
const endReleased = (repair: Repair, gate: Gate, to: Moment): void => {
  if (repair.gates[gate].status !== 'open') return
  const released = repair.releases.filter((release) => release.gate === gate && !release.asked)
  const from = Math.min(...released.map(({ stamp }) => stamp.happened))
  if (from < to) repair.releasedSpells.push({ gate, from, to })
}

const takeBack = (
  record: GateRecord,
  isFirst: boolean,
  reopened: NonNullable<GateRecord['reopened']>,
): void => {
  if (record.status === 'passed') record.reopened = reopened
  // A later gate that was marked not needed stays so: its reason was not about the work that is undone.
  if (record.status === 'not needed' && !isFirst) return
  record.status = 'open'
  record.done = null
  record.evidenceFloor = reopened.stamp.number
}

const undoLayers = (repair: Repair, gates: readonly Gate[]): void => {
  for (const layer of repair.layers.values()) {
    if (gates.includes('welded') && layer.closedOver?.byWelded) layer.closedOver = null
    if (gates.includes('fabricated')) layer.closedOver = layer.repaired = null
    if (gates.includes('primed') && !layer.closedOver) layer.coated = null
    if (gates.includes('assessed'))
      Object.assign(layer, { grade: null, judgedBy: null, remainingMm: null, decision: null, graded: null })
  }
  if (gates.includes('assessed')) repair.reviewed = null
}

const makeFitUpsStale = (car: CarDraft, repairId: RepairId, number: number): void => {
  for (const group of car.fitGroups.values())
    if (group.plan.members.includes(repairId)) group.staleFrom = number
}

const attachPhoto = (
  car: CarDraft,
  payload: PayloadOf<'photoAttached'>,
  visitId: Fact['visitId'],
  stamp: Stamp,
): void => {
  const taken = payload.taken === null ? null : Date.parse(payload.taken)
  car.attachments.set(payload.attachmentId, {
    id: payload.attachmentId,
    sha256: payload.sha256,
    taken,
    // A camera whose clock runs ahead of the host is not believed.
    countsAt: taken !== null && taken <= stamp.recorded ? taken : stamp.recorded,
    caption: payload.caption,
    serves: payload.serves,
    marks: NO_MARKS,
    visitId,
    stamp,
  })
}

const markLayers = (car: CarDraft, payload: PayloadOf<'layersMarked'>, stamp: Stamp): void => {
  const repair = car.repairs.get(payload.repairId)
  for (const id of payload.layerIds) {
    const layer = repair?.layers.get(id)
    if (!layer) continue
    if (payload.mark === 'repaired') layer.repaired = stamp
    else if (payload.mark === 'coated') layer.coated = stamp
    else layer.closedOver = { ...stamp, byWelded: false }
  }
}
