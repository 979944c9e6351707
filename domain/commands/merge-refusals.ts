import type { CarState, RepairState } from '../car.ts'
import type { Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { firstRefusal, refuseIf, type Refused } from './deciders.ts'

/**
 * Agreed hours that move to a line of another payer, or to one that nobody has accepted yet, would be asked for from somebody
 * who never agreed to them, or be agreed no more.
 *
 * @param moves authorised hours of `from` that go to `into`, by gate
 */
export const movedAgreementRefusal = (
  car: CarState,
  from: RepairState,
  into: RepairState,
  moves: readonly { readonly gate: Gate; readonly hours: number }[],
): Refused | null =>
  firstRefusal(
    ...moves.filter(({ hours }) => hours > 0).map(({ gate }) => gateRefusal(car, from, into, gate)),
  )

const gateRefusal = (car: CarState, from: RepairState, into: RepairState, gate: Gate): Refused | null => {
  const [source, target] = [lineOn(car, from.id, gate), lineOn(car, into.id, gate)]
  if (source === undefined || target === undefined) return null
  const [name, other] = [from.plan.name, into.plan.name]
  return firstRefusal(
    refuseIf(
      source.payer !== target.payer,
      'not-now',
      `${gate} is paid by the ${source.payer} on ${name} and by the ${target.payer} on ${other}.`,
      'Give both lines of the estimate one payer first.',
    ),
    refuseIf(
      source.accepted !== null && target.accepted === null,
      'not-now',
      `${gate} is agreed on ${name} and not accepted yet on ${other}.`,
      `Let the ${target.payer} accept the estimate of ${other} first.`,
    ),
  )
}

const lineOn = (car: CarState, repairId: RepairId, gate: Gate) => {
  const lines = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)?.lines
  return [...(lines?.values() ?? [])].find(
    ({ target }) => target.kind === 'gate' && target.repairId === repairId && target.gate === gate,
  )
}
