import type { CarState, RepairState } from '../car.ts'
import { fact } from '../facts.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import { gatesBefore, gatesFrom, type Gate } from '../gates.ts'
import type { AttachmentId, PersonId, ReadingId, RepairId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { counts, evidenceStart, gatePhotos } from '../rules/evidence.ts'
import { groupsOf, lastFullFitUp } from '../rules/fit-holds.ts'
import { gateHolds, standing, type JudgedHold } from '../rules/holds.ts'
import { supportHolds, uncoverHolds } from '../rules/order-holds.ts'
import { coveredBy, isClosed, isDone, passedAt } from '../rules/standing.ts'
import type { CommandPayload } from './command-shapes.ts'
import type { Decided } from './decide.ts'
import {
  currentVisit,
  findRepair,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  unknownPeople,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'

type GateKind =
  | 'passGate'
  | 'markNotNeeded'
  | 'reopenGate'
  | 'releaseHold'
  | 'askRelease'
  | 'setHold'
  | 'clearHold'
  | 'liftSupport'

export const gateDeciders: { readonly [K in GateKind]: Decider<K> } = {
  passGate: onCar((payload, context) => passGate(payload, context)),

  markNotNeeded: onCar((payload, context) => {
    const found = findRepair(context.car, payload.repairId)
    if (!found.ok) return found
    return notNeededRefusal(found.value, payload.gate, context) ?? record(fact('gateNotNeeded', payload))
  }),

  reopenGate: onCar((payload, context) => {
    const found = findRepair(context.car, payload.repairId)
    if (!found.ok) return found
    const visit = currentVisit(context.car)
    if (!visit.ok) return visit
    return reopenRefusal(context.car, found.value, payload.gate) ?? record(fact('gateReopened', payload))
  }),

  releaseHold: onCar((payload, context) => {
    const found = standingHold(payload, context)
    if (!found.ok) return found
    if (!found.value.releasable)
      return refuse(
        'not-allowed',
        `'${payload.code}' is never released.`,
        'Clear the hold itself: nothing may be covered out of order.',
      )
    return record(fact('holdReleased', { ...payload, ownHold: isOwnHold(payload, context) }))
  }),

  askRelease: onCar((payload, context) => {
    const found = standingHold(payload, context)
    return found.ok ? record(fact('releaseAsked', payload)) : found
  }),

  setHold: onCar(
    (payload, { car }) =>
      refuseIf(car.holds.has(payload.holdId), 'already', 'This hold is set already.', 'Reload the car.') ??
      record(fact('holdSet', payload)),
  ),

  clearHold: onCar((payload, { car }) => {
    const hold = car.holds.get(payload.holdId)
    return (
      refuseIf(
        !hold || hold.cleared !== null,
        'unknown',
        'This hold does not stand any more.',
        'Reload the car.',
      ) ?? record(fact('holdCleared', payload))
    )
  }),

  liftSupport: onCar((payload, { car }) => {
    const unknown = payload.repairIds.map((id) => findRepair(car, id)).find((found) => !found.ok)
    if (unknown && !unknown.ok) return unknown
    const fixture = car.standing?.fixture
    return (
      refuseIf(
        fixture !== 'jig' && fixture !== 'rotisserie' && !car.safety.bracing,
        'not-now',
        'The shell stands neither on a jig nor on a rotisserie, and bracing is not stated.',
        'Put it on a fixture or brace it fully, state that, and lift the support hold then.',
      ) ?? record(fact('supportLifted', payload))
    )
  }),
}

const passGate = (payload: CommandPayload<'passGate'>, context: CarContext): Result<Decided> => {
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

const heldRefusal = (name: string, holds: readonly JudgedHold[]): Refused | null => {
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

const notNeededRefusal = (
  repair: RepairState,
  gate: Gate,
  { car, now, workshop }: CarContext,
): Refused | null => {
  const covers = coveredBy(car, repair.id).length > 0
  return firstRefusal(
    refuseIf(
      isDone(repair, gate),
      'already',
      `${gate} is done on ${repair.plan.name} already.`,
      'Reload the repair.',
    ),
    refuseIf(
      repair.closedAsFound !== null,
      'not-now',
      `${repair.plan.name} was closed as found.`,
      'Nothing to do.',
    ),
    refuseIf(
      covers && (gate === 'opened' || gate === 'welded'),
      'under-cover',
      `${repair.plan.name} covers other repairs, so ${gate} is always needed on it.`,
      'Pass the gate, or take the links out first.',
    ),
    // Metal that need not come off lies open already, so the other side must be closed all the same.
    gate === 'opened'
      ? heldRefusal(
          repair.plan.name,
          standing(gateHolds(car, repair.id, gate, { at: now, workshop, did: null })).filter(
            (each) => each.code === 'support',
          ),
        )
      : null,
  )
}

const reopenRefusal = (car: CarState, repair: RepairState, gate: Gate): Refused | null => {
  const nothing =
    gatesFrom(repair.plan, gate).every((each) => !isDone(repair, each)) && repair.closedAsFound === null
  return firstRefusal(
    refuseIf(
      nothing || (!isDone(repair, gate) && repair.closedAsFound === null),
      'not-now',
      `${gate} is not done on ${repair.plan.name}.`,
      'Only a gate that is done can be reopened.',
    ),
    heldRefusal(repair.plan.name, uncoverHolds(car, repair).map(unreleased)),
    willStandOpen(repair, gate)
      ? heldRefusal(repair.plan.name, supportHolds(car, repair).map(unreleased))
      : null,
  )
}

const unreleased = (hold: ReturnType<typeof uncoverHolds>[number]): JudgedHold => ({
  ...hold,
  released: null,
})

/** The repair is closed now and would stand open again. */
const willStandOpen = (repair: RepairState, gate: Gate): boolean =>
  isClosed(repair) && gate !== 'painted' && gate !== 'opened'

const standingHold = (
  payload: {
    readonly repairId: RepairId
    readonly gate: Gate
    readonly code: HoldCode
    readonly subject: string
  },
  { car, workshop, now }: CarContext,
): Result<JudgedHold> => {
  const found = findRepair(car, payload.repairId)
  if (!found.ok) return found
  // Skill is judged against everybody, so that it can be released for whoever does the work.
  const did = [...workshop.people.keys()]
  const hold = standing(gateHolds(car, payload.repairId, payload.gate, { at: now, workshop, did })).find(
    (each) => each.code === payload.code && each.subject === payload.subject,
  )
  return hold ? ok(hold) : refuse('unknown', 'This hold does not stand any more.', 'Reload the repair.')
}

/** In a small workshop the manager welds too: releasing what one waits for oneself is marked as such. */
const isOwnHold = (
  { repairId, gate, code, subject }: CommandPayload<'releaseHold'>,
  { car, by }: CarContext,
): boolean => {
  const asked = car.repairs
    .get(repairId)
    ?.releases.some(
      (release) =>
        release.asked && release.stamp.by === by && release.code === code && release.subject === subject,
    )
  const worked = [...car.entries.values()].some(
    (entry) =>
      entry.gone === null &&
      entry.personId === by &&
      entry.on.kind === 'work' &&
      entry.on.targets.some(
        (target) => target.kind === 'gate' && target.repairId === repairId && target.gate === gate,
      ),
  )
  return (
    Boolean(asked) ||
    worked ||
    [...car.holds.values()].some((hold) => hold.id === subject && hold.stamp.by === by)
  )
}
