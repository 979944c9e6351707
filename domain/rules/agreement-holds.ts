import type { CarState, RepairState, VariationState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'
import { capital } from '../text/words.ts'
import { isSameTarget } from '../value/target.ts'
import { isAgreed } from '../value/varied-hours.ts'
import { hold, type Hold } from './hold.ts'

/** Owner's decision and declined: work beyond what is authorised waits, per repair and gate. */
export const agreementHolds = (car: CarState, repair: RepairState, gate: Gate): readonly Hold[] =>
  targetAgreementHolds(car, { kind: 'gate', repairId: repair.id, gate }, gate)

export const targetAgreementHolds = (car: CarState, target: WorkTarget, what: string): readonly Hold[] => {
  const visit = car.currentVisit ? car.visits.get(car.currentVisit) : undefined
  if (!visit) return [hold("owner's decision", 'visit', 'The car has no visit yet.', 'the manager')]
  const variations = [...car.variations.values()].filter(
    (each) => each.visitId === visit.id && each.lines.some((line) => isSameTarget(line.target, target)),
  )
  const lines = [...visit.lines.values()].filter((line) => isSameTarget(line.target, target))
  const authorised =
    lines.some((line) => line.accepted !== null) || variations.some(({ status }) => isAgreed(status))
  return [
    ...statusHolds(visit.status),
    ...(authorised || variations.some(isOpenQuestion) ? [] : [unauthorised(what, lines)]),
    ...variations.filter((each) => each.status === 'raised').map(pending),
    ...variations.filter((each) => each.status === 'declined').map(declined),
    ...variations.filter((each) => each.status === 'stopped').map(stopped),
  ]
}

const isOpenQuestion = (variation: VariationState): boolean =>
  variation.status === 'raised' || variation.status === 'declined' || variation.status === 'stopped'

const statusHolds = (status: string): readonly Hold[] =>
  status === 'in work'
    ? []
    : [hold('by hand', 'visit', `The visit is ${status}, not in work.`, 'the manager', { releasable: false })]

const unauthorised = (what: string, lines: readonly { readonly payer: string }[]): Hold => {
  const payer = lines[0]?.payer
  const words = payer
    ? `${capital(what)} is estimated and the ${payer} has not accepted it yet.`
    : `No hours are agreed for ${what} in this visit.`
  return hold("owner's decision", 'estimate', words, payer ? `the ${payer}` : 'the manager')
}

const pending = (variation: VariationState): Hold =>
  hold(
    "owner's decision",
    variation.id,
    `'${variation.title}' waits for the ${variation.payer}'s answer.`,
    `the ${variation.payer}`,
  )

const declined = (variation: VariationState): Hold =>
  hold(
    'declined',
    variation.id,
    `The ${variation.payer} declined '${variation.title}'; choose what happens now.`,
    'the manager',
  )

const stopped = (variation: VariationState): Hold =>
  hold('declined', variation.id, `Stopped: ${variation.settled?.reason ?? ''}`, 'the manager')
