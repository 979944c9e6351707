import type { AttachmentState, CarState, GateRecordState, RepairState, Stamp } from '../car.ts'
import { gatesBefore, type Gate } from '../gates.ts'
import { passedAt } from './standing.ts'

/**
 * Evidence lies after the gate before was done: the last passed gate before this one, cut to the full second because
 * cameras date no finer. 0 when nothing was passed before.
 */
export const evidenceStart = (repair: RepairState, gate: Gate): number => {
  const times = gatesBefore(repair.plan, gate).map((before) => passedAt(repair.gates[before]) ?? 0)
  return Math.floor(Math.max(0, ...times) / 1000) * 1000
}

/** A reading counts for a gate when it was stated after the gate before, and after the last reopening. */
export const counts = (stamp: Stamp, record: GateRecordState, start: number): boolean =>
  stamp.number > record.evidenceFloor && stamp.happened >= start

export interface GatePhoto {
  readonly attachment: AttachmentState
  readonly shows: string
  readonly layerId: string | null
}

/** Photos that count as evidence for the gate, with what each shows. */
export const gatePhotos = (car: CarState, repair: RepairState, gate: Gate): readonly GatePhoto[] => {
  const record = repair.gates[gate]
  const start = evidenceStart(repair, gate)
  const photos: GatePhoto[] = []
  for (const attachment of car.attachments.values()) {
    if (attachment.stamp.number <= record.evidenceFloor || attachment.countsAt < start) continue
    for (const serves of attachment.serves)
      if (serves.what === 'gate' && serves.repairId === repair.id && serves.gate === gate)
        photos.push({ attachment, shows: serves.shows, layerId: serves.layerId })
  }
  return photos
}

/** A photo of the layer taken since the repair was last opened, at whatever gate. */
export const isLayerPhotographed = (car: CarState, repair: RepairState, layerId: string): boolean =>
  [...car.attachments.values()].some(
    ({ stamp, serves }) =>
      stamp.number > repair.gates.opened.evidenceFloor &&
      serves.some((each) => each.what === 'gate' && each.repairId === repair.id && each.layerId === layerId),
  )
