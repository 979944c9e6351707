import type { CarState, RepairState } from '../car.ts'
import { fact } from '../facts.ts'
import type { HoldCode, HoldScope } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { gateHolds, standing, type JudgedHold } from '../rules/holds.ts'
import { supportHolds, uncoverHolds } from '../rules/order-holds.ts'
import { coveredBy, isClosed, isDone } from '../rules/standing.ts'
import type { CommandPayload } from './command-shapes.ts'
import {
  currentVisit,
  findRepair,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  unknownRepairs,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'
import { heldRefusal, passGate } from './decide-pass-gate.ts'

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
    const found = releasableHold(payload, context)
    if (!found.ok) return found
    return record(fact('holdReleased', { ...payload, ownHold: isOwnHold(payload, context) }))
  }),

  askRelease: onCar((payload, context) => {
    const found = releasableHold(payload, context)
    return found.ok ? record(fact('releaseAsked', payload)) : found
  }),

  setHold: onCar(
    (payload, { car }) =>
      firstRefusal(
        refuseIf(car.holds.has(payload.holdId), 'already', 'This hold is set already.', 'Reload the car.'),
        scopeRefusal(payload.scope, car),
      ) ?? record(fact('holdSet', payload)),
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
    const fixture = car.standing?.fixture
    return (
      unknownRepairs(car, payload.repairIds) ??
      refuseIf(
        fixture !== 'jig' && fixture !== 'rotisserie' && !car.safety.bracing,
        'not-now',
        'The shell stands neither on a jig nor on a rotisserie, and bracing is not stated.',
        'Put it on a fixture or brace it fully, state that, and lift the support hold then.',
      ) ??
      record(fact('supportLifted', payload))
    )
  }),
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

const reopenRefusal = (car: CarState, repair: RepairState, gate: Gate): Refused | null =>
  firstRefusal(
    refuseIf(
      !isDone(repair, gate) && repair.closedAsFound === null,
      'not-now',
      `${gate} is not done on ${repair.plan.name}.`,
      'Only a gate that is done can be reopened.',
    ),
    heldRefusal(repair.plan.name, uncoverHolds(car, repair).map(unreleased)),
    willStandOpen(repair, gate)
      ? heldRefusal(repair.plan.name, supportHolds(car, repair).map(unreleased))
      : null,
  )

const unreleased = (hold: ReturnType<typeof uncoverHolds>[number]): JudgedHold => ({
  ...hold,
  released: null,
})

/** The repair is closed now and would stand open again. */
const willStandOpen = (repair: RepairState, gate: Gate): boolean =>
  isClosed(repair) && gate !== 'painted' && gate !== 'opened'

const releasableHold = (
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
  if (!hold) return refuse('unknown', 'This hold does not stand any more.', 'Reload the repair.')
  return hold.releasable
    ? ok(hold)
    : refuse(
        'not-allowed',
        `'${payload.code}' is never released.`,
        'Clear the hold itself: nothing may be covered out of order.',
      )
}

/** What is to be held is on this car and still stands in its books. */
const scopeRefusal = (scope: HoldScope, car: CarState): Refused | null => {
  switch (scope.kind) {
    case 'car':
      return null
    case 'task':
      return refuseIf(!car.tasks.has(scope.taskId), 'unknown', 'This task is not known.', 'Reload the car.')
    case 'repair':
    case 'gate':
      return unknownRepairs(car, [scope.repairId])
  }
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
        release.asked &&
        release.stamp.by === by &&
        release.gate === gate &&
        release.code === code &&
        release.subject === subject,
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
