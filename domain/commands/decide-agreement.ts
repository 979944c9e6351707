import type { CarState, VariationState } from '../car.ts'
import { fact } from '../facts.ts'
import type { EstimateLine, WorkTarget } from '../facts/shapes.ts'
import type { VariationId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { isSameTarget } from '../rules/agreement-holds.ts'
import { isDone } from '../rules/standing.ts'
import { targetHours } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import type { CommandPayload } from './command-shapes.ts'
import { estimateFacts } from './decide-repair.ts'
import {
  currentVisit,
  findRepair,
  findVisit,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'
import { closeRefusal } from './close-as-found-refusal.ts'

type AgreementKind =
  | 'setEstimate'
  | 'acceptEstimate'
  | 'reviewEstimate'
  | 'raiseVariation'
  | 'decideVariation'
  | 'settleDeclined'
  | 'closeAsFound'
  | 'issueReport'

export const agreementDeciders: { readonly [K in AgreementKind]: Decider<K> } = {
  setEstimate: onCar((payload, { car }) => {
    const visit = currentVisit(car)
    if (!visit.ok) return visit
    return (
      firstRefusal(
        refuseIf(
          visit.value.id !== payload.visitId,
          'not-now',
          'This is not the visit that is going on.',
          'Reload the car.',
        ),
        ...payload.lines.map((line) => lineRefusal(car, line, payload.lines, visit.value.lines)),
      ) ?? record(...estimateFacts(payload.visitId, payload.lines))
    )
  }),

  acceptEstimate: onCar((payload, { car }) => {
    const visit = findVisit(car, payload.visitId)
    if (!visit.ok) return visit
    const lines = payload.lineIds.map((id) => visit.value.lines.get(id))
    return (
      firstRefusal(
        refuseIf(
          lines.includes(undefined),
          'unknown',
          'A line of the estimate is not known.',
          'Reload the car.',
        ),
        refuseIf(
          lines.some((line) => line && line.payer !== payload.payer),
          'bad-input',
          `Not every line is paid by the ${payload.payer}.`,
          'Each payer accepts their own lines.',
        ),
        refuseIf(
          lines.every((line) => line && line.accepted !== null),
          'already',
          'These lines are accepted already.',
          'Nothing to do.',
        ),
      ) ?? record(fact('estimateAccepted', payload))
    )
  }),

  reviewEstimate: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    return (
      refuseIf(
        !isDone(found.value, 'assessed'),
        'not-now',
        `${found.value.plan.name} is not assessed yet.`,
        'Review the estimate once every layer is graded.',
      ) ?? record(fact('estimateReviewed', payload))
    )
  }),

  raiseVariation: onCar((payload, context) => raiseVariation(payload, context)),

  decideVariation: onCar((payload, context) => {
    const { car } = context
    const found = findVariation(car, payload.variationId)
    if (!found.ok) return found
    const variation = found.value
    return (
      firstRefusal(
        refuseIf(
          variation.status !== 'raised',
          'already',
          `'${variation.title}' is ${variation.status} already.`,
          'Raise another variation if more has to be decided.',
        ),
        payload.decision === 'accepted' ? twiceRefusal(car, variation) : null,
        payload.decision === 'accepted' ? takenBackRefusal(variation, context) : null,
      ) ?? record(fact('variationDecided', payload))
    )
  }),

  settleDeclined: onCar((payload, context) => {
    const found = findVariation(context.car, payload.variationId)
    if (!found.ok) return found
    const { status, title } = found.value
    return (
      firstRefusal(
        refuseIf(
          status !== 'declined' && status !== 'stopped',
          'not-now',
          `'${title}' is ${status}, not declined.`,
          'Only declined work is settled.',
        ),
        payload.choice === 'workshop pays' ? takenBackRefusal(found.value, context) : null,
      ) ?? record(fact('declinedSettled', payload))
    )
  }),

  closeAsFound: onCar((payload, context) => {
    const found = findRepair(context.car, payload.repairId)
    if (!found.ok) return found
    return closeRefusal(found.value, payload, context) ?? record(fact('closedAsFound', payload))
  }),

  issueReport: onCar((payload, { car }) => {
    const visit = findVisit(car, payload.visitId)
    if (!visit.ok) return visit
    return (
      refuseIf(
        car.reports.has(payload.reportId),
        'already',
        'This report is issued already.',
        'Nothing to do.',
      ) ?? record(fact('reportIssued', payload))
    )
  }),
}

const lineRefusal = (
  car: CarState,
  line: EstimateLine,
  all: readonly EstimateLine[],
  known: ReadonlyMap<string, { readonly lineId: string; readonly target: WorkTarget }>,
): Refused | null => {
  const { target } = line
  const repair = target.kind === 'gate' ? car.repairs.get(target.repairId) : undefined
  const exists =
    target.kind === 'gate' ? repair !== undefined && repair.retired === null : car.tasks.has(target.taskId)
  const other = [...known.values(), ...all].some(
    (each) => each.lineId !== line.lineId && isSameTarget(each.target, target),
  )
  return firstRefusal(
    refuseIf(!exists, 'unknown', 'An estimate line is for something that is not known.', 'Reload the car.'),
    refuseIf(
      other,
      'already',
      'Two estimate lines are for the same gate or task.',
      'Change the line that is there.',
    ),
    refuseIf(
      target.kind === 'gate' && repair !== undefined && isDone(repair, target.gate),
      'not-now',
      `${target.kind === 'gate' ? target.gate : 'It'} is done; its agreed figure stands.`,
      'Raise a variation for more work, or reopen the gate.',
    ),
  )
}

const raiseVariation = (payload: CommandPayload<'raiseVariation'>, context: CarContext) => {
  const { car } = context
  const visit = currentVisit(car)
  if (!visit.ok) return visit
  const refused = firstRefusal(
    refuseIf(
      visit.value.id !== payload.visitId,
      'not-now',
      'This is not the visit that is going on.',
      'Reload the car.',
    ),
    refuseIf(
      car.variations.has(payload.variationId),
      'already',
      'This variation is raised already.',
      'Nothing to do.',
    ),
    refuseIf(
      payload.findings.some((id) => !car.findings.has(id)),
      'unknown',
      'A finding is not known.',
      'Reload the car.',
    ),
    refuseIf(
      payload.attachments.some((id) => !car.attachments.has(id)),
      'photo',
      'A photo is not known.',
      'Send it first.',
    ),
    ...payload.lines.map((line) => variationLineRefusal(line, context)),
  )
  if (refused) return refused
  const own = payload.payer === 'workshop'
  return record(
    fact('variationRaised', payload),
    ...(own
      ? [
          fact('variationDecided', {
            variationId: payload.variationId,
            decision: 'accepted',
            how: 'visit',
            note: '',
          }),
        ]
      : []),
  )
}

const variationLineRefusal = (
  { target, hours }: { readonly target: WorkTarget; readonly hours: number },
  { car, now, workshop }: CarContext,
): Refused | null => {
  const repair = target.kind === 'gate' ? car.repairs.get(target.repairId) : undefined
  const exists =
    target.kind === 'gate' ? repair !== undefined && repair.retired === null : car.tasks.has(target.taskId)
  const { authorised } = targetHours(car, car.currentVisit, target, { at: now, workshop })
  return firstRefusal(
    refuseIf(!exists, 'unknown', 'The variation is for something that is not known.', 'Reload the car.'),
    refuseIf(
      hours === 0,
      'bad-input',
      'A line of the variation has no hours.',
      'Give hours more or less, or leave it out.',
    ),
    refuseIf(
      authorised + hours < 0,
      'bad-input',
      'The variation takes back more hours than are authorised.',
      `At most ${authorised} h can be taken back there.`,
    ),
  )
}

/** Authorised hours may have moved away, or been taken back, since the variation was raised. */
const takenBackRefusal = (
  { title, lines, visitId }: VariationState,
  { car, now, workshop }: CarContext,
): Refused | null => {
  const isTooMuch = lines.some(({ target }) => {
    const { authorised, givenBack } = targetHours(car, visitId, target, { at: now, workshop })
    const own = lines.filter((line) => targetKey(line.target) === targetKey(target))
    return authorised + givenBack + own.reduce((sum, { hours }) => sum + hours, 0) < 0
  })
  return refuseIf(
    isTooMuch,
    'not-now',
    `'${title}' takes back more hours than are still authorised.`,
    'Decline it, and raise another with the hours that are there now.',
  )
}

/** Work on one finding is paid once. */
const twiceRefusal = (car: CarState, variation: VariationState): Refused | null => {
  const other = [...car.variations.values()].find(
    (each) =>
      each.id !== variation.id &&
      (each.status === 'accepted' || each.status === 'workshop pays') &&
      each.findings.some((id) => variation.findings.includes(id)),
  )
  return refuseIf(
    other !== undefined,
    'already',
    `'${other?.title}' was accepted for the same finding.`,
    'Decline this one, or raise another without that finding.',
  )
}

const findVariation = (car: CarState, id: VariationId): Result<VariationState> => {
  const variation = car.variations.get(id)
  return variation ? ok(variation) : refuse('unknown', 'This variation is not known.', 'Reload the car.')
}
