import type { CarState, RepairState } from '../car.ts'
import { fact } from '../facts.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import { gatesBefore, type Gate } from '../gates.ts'
import type { AttachmentId, PersonId, ReadingId } from '../ids.ts'
import { refuse, type Result } from '../refusal.ts'
import { counts, evidenceStart, gatePhotos } from '../rules/evidence.ts'
import { groupsOf, lastFullFitUp } from '../rules/fit-holds.ts'
import { gateHolds, standing, type JudgedHold } from '../rules/holds.ts'
import { isDone, passedAt } from '../rules/standing.ts'
import type { CommandPayload } from './command-shapes.ts'
import type { Decided } from './decide.ts'
import {
  findRepair,
  firstRefusal,
  record,
  refuseIf,
  unknownPeople,
  type CarContext,
  type Refused,
} from './deciders.ts'

/** Passes the same gate on one or several repairs of a car in one act; all of them or none. */
export const passGate = (payload: CommandPayload<'passGate'>, context: CarContext): Result<Decided> => {
  const people = unknownPeople(context, payload.did)
  if (people) return people
  const repairs: RepairState[] = []
  for (const id of new Set(payload.repairIds)) {
    const found = findRepair(context.car, id)
    if (!found.ok) return found
    repairs.push(found.value)
  }
  const refused = firstRefusal(
    ...repairs.map((repair) => passRefusal(repair, payload, context)),
    payload.gate === 'opened' ? sidesRefusal(context.car, repairs) : null,
  )
  return refused ?? record(...repairs.map((repair) => passedFact(repair, payload, context)))
}

const passRefusal = (
  repair: RepairState,
  payload: CommandPayload<'passGate'>,
  { car, workshop, happened, by, second }: CarContext,
): Refused | null => {
  const { gate } = payload
  const { name, gates } = repair.plan
  const lastDone = Math.max(
    0,
    ...gatesBefore(repair.plan, gate).map((each) => passedAt(repair.gates[each]) ?? 0),
  )
  return firstRefusal(
    refuseIf(
      repair.closedAsFound !== null,
      'not-now',
      `${name} was closed as found.`,
      'Reopen a gate of it first.',
    ),
    refuseIf(
      isDone(repair, gate),
      'already',
      `${gate} is done on ${name} already.`,
      'Nothing to do; reload the repair.',
    ),
    heldRefusal(
      name,
      standing(gateHolds(car, repair.id, gate, { at: happened, workshop, did: payload.did })),
    ),
    refuseIf(
      happened < lastDone,
      'bad-input',
      `${gate} cannot be done before the gate before it.`,
      'Correct the time done.',
    ),
    refuseIf(
      gates[gate].asks.secondSignature && (second === null || second === by),
      'held',
      `${gate} on ${name} asks for a second signature.`,
      'Let a second person sign with their own code.',
    ),
    refuseIf(
      gate === 'painted' && payload.coat === null,
      'bad-input',
      'Say which coat it is.',
      'Choose protective, outer or temporary.',
    ),
  )
}

/** Names every hold that stands and who can clear them. */
export const heldRefusal = (name: string, holds: readonly JudgedHold[]): Refused | null => {
  const first = holds[0]
  if (!first) return null
  const words = holds.map((each) => each.words).join(' ')
  return refuse(
    'held',
    `${name} is held: ${words}`,
    `Cleared by ${[...new Set(holds.map((each) => each.clearedBy))].join(', ')}.`,
  )
}

/** One act must not open two sides at once: each repair by itself would be allowed. */
const sidesRefusal = (car: CarState, repairs: readonly RepairState[]): Refused | null => {
  const bearing = repairs.filter((repair) => repair.plan.loadBearing && repair.plan.on === 'shell')
  const other = bearing.find((repair) => repair.plan.zone.side !== bearing[0]?.plan.zone.side)
  const lifted = [...car.lifts.values()].some(
    (lift) => lift.ended === null && bearing.every((repair) => lift.repairIds.includes(repair.id)),
  )
  return refuseIf(
    other !== undefined && !lifted,
    'held',
    'These load-bearing repairs lie on different sides; the shell would lose both.',
    'Open one side at a time, or say first how the shell is held.',
  )
}

const passedFact = (repair: RepairState, payload: CommandPayload<'passGate'>, context: CarContext) => {
  const { gate, did, coat, note } = payload
  const { car, workshop, happened } = context
  const holds = gateHolds(car, repair.id, gate, { at: happened, workshop, did })
  return fact('gatePassed', {
    repairId: repair.id,
    gate,
    did: [...did] as PersonId[],
    second: context.second,
    asked: repair.plan.gates[gate].asks as CommandAsked,
    evidence: { attachments: photoIds(car, repair, gate), readings: readingIds(car, repair, gate) },
    released: [...new Set(holds.filter((each) => each.released).map((each) => each.code))] as HoldCode[],
    coat: gate === 'painted' ? coat : null,
    note,
  })
}

type CommandAsked = Parameters<typeof fact<'gatePassed'>>[1]['asked']

const photoIds = (car: CarState, repair: RepairState, gate: Gate): AttachmentId[] => [
  ...new Set(gatePhotos(car, repair, gate).map((photo) => photo.attachment.id)),
]

/** Readings that counted when the gate was passed. */
const readingIds = (car: CarState, repair: RepairState, gate: Gate): ReadingId[] => {
  const start = evidenceStart(repair, gate)
  const counted = (stamp: Parameters<typeof counts>[0]) => counts(stamp, repair.gates[gate], start)
  return [
    ...car.conditions.filter(
      (each) => each.gate === gate && each.repairIds.includes(repair.id) && counted(each.stamp),
    ),
    ...(gate === 'sealed' ? repair.drainsChecked.filter(counted) : []),
    ...(gate === 'welded' ? repair.welds.filter((each) => counted(each.stamp)) : []),
    ...(gate === 'trial-fitted'
      ? groupsOf(car, repair.id).flatMap((group) => lastFullFitUp(group) ?? [])
      : []),
  ].map((reading) => reading.id)
}
