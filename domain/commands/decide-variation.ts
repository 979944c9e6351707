import type { CarState, VariationState } from '../car.ts'
import { fact } from '../facts.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { VariationId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { asRead } from '../measure/judgement.ts'
import { targetHours } from '../value/hours.ts'
import { isSameTarget, targetKey } from '../value/target.ts'
import { isAgreed } from '../value/varied-hours.ts'
import type { CommandPayload } from './command-shapes.ts'
import { agreedCostIds, costRepairRefusal, sameCostRefusal } from './decide-money.ts'
import {
  currentVisit,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'

type VariationKind = 'raiseVariation' | 'decideVariation' | 'settleDeclined'

export const variationDeciders: { readonly [K in VariationKind]: Decider<K> } = {
  raiseVariation: onCar((payload, context) => raiseVariation(payload, context)),

  decideVariation: onCar((payload, context) => {
    const { car } = context
    const found = findVariation(car, payload.variationId)
    if (!found.ok) return found
    const variation = found.value
    const { changed } = payload
    const answered = changed === null ? variation : { ...variation, lines: changed.lines }
    return (
      firstRefusal(
        changed === null ? null : changedRefusal(variation, payload.decision, changed),
        refuseIf(
          variation.status !== 'raised',
          'already',
          `'${variation.title}' is ${variation.status} already.`,
          'Raise another variation if more has to be decided.',
        ),
        refuseIf(
          context.happened < variation.raised.happened,
          'bad-input',
          'The answer lies before the question.',
          `'${variation.title}' was raised later: look at the day and the hour.`,
        ),
        payload.decision === 'accepted' ? acceptedRefusal(answered, context) : null,
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
        closedForRefusal(found.value, context.car),
        payload.choice === 'workshop pays' ? workshopPaysRefusal(found.value, context) : null,
      ) ?? record(fact('declinedSettled', payload))
    )
  }),
}

const raiseVariation = (payload: CommandPayload<'raiseVariation'>, context: CarContext) => {
  const { car } = context
  const visit = currentVisit(car)
  if (!visit.ok) return visit
  const own = payload.payer === 'workshop'
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
    ...payload.lines.map((line) => variationLineRefusal(line, payload.lines, context)),
    costsRefusal(payload, car),
    own ? twiceRefusal(car, { ...payload, id: payload.variationId }, 'Leave that finding out.') : null,
  )
  if (refused) return refused
  return record(
    fact('variationRaised', payload),
    ...(own
      ? [
          fact('variationDecided', {
            variationId: payload.variationId,
            decision: 'accepted',
            changed: null,
            how: 'visit',
            note: '',
          }),
        ]
      : []),
  )
}

const costsRefusal = ({ costs }: CommandPayload<'raiseVariation'>, car: CarState): Refused | null => {
  const known = agreedCostIds(car)
  const ids = costs.map(({ costId }) => costId)
  return firstRefusal(
    sameCostRefusal(ids),
    refuseIf(
      ids.some((id) => known.has(id)),
      'already',
      'A cost of this variation is asked for already.',
      'Leave it out, or change it where it stands.',
    ),
    ...costs.map(({ repairId }) => costRepairRefusal(car, repairId)),
  )
}

interface AskedLine {
  readonly target: WorkTarget
  readonly hours: number
}

const variationLineRefusal = (
  { target, hours }: AskedLine,
  all: readonly AskedLine[],
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
      authorised + hoursOn(all, target) < 0,
      'bad-input',
      'The variation takes back more hours than are authorised.',
      `At most ${asRead(authorised)} h can be taken back there.`,
    ),
  )
}

/** Person-hours of all lines for one gate or task; one may be asked for in several lines. */
const hoursOn = (lines: readonly AskedLine[], target: WorkTarget): number =>
  lines.reduce((sum, line) => (isSameTarget(line.target, target) ? sum + line.hours : sum), 0)

const acceptedRefusal = (answered: VariationState, context: CarContext): Refused | null =>
  firstRefusal(
    finishedRefusal(answered, context.car),
    twiceRefusal(context.car, answered, 'Decline this one, or raise another without that finding.'),
    takenBackRefusal(answered, context),
  )

/** Closing as found has settled it. */
const closedForRefusal = ({ id, title }: VariationState, car: CarState): Refused | null => {
  const closed = [...car.repairs.values()].find(({ closedAsFound }) => closedAsFound?.variationId === id)
  return refuseIf(
    closed !== undefined,
    'already',
    `${closed?.plan.name} was closed as found because '${title}' was declined.`,
    `Reopen a gate of ${closed?.plan.name} first.`,
  )
}

const workshopPaysRefusal = (declined: VariationState, context: CarContext): Refused | null =>
  firstRefusal(
    twiceRefusal(context.car, declined, 'Settle this one as less work: it is paid already.'),
    takenBackRefusal(declined, context),
  )

/** What the payer of an earlier visit, or of a finished one, says now cannot be worked on. */
const finishedRefusal = ({ visitId }: VariationState, car: CarState): Refused | null => {
  const visit = currentVisit(car)
  if (!visit.ok) return visit
  return refuseIf(
    visit.value.id !== visitId,
    'not-now',
    'This variation belongs to a visit that is over.',
    'Raise another in the visit that is going on.',
  )
}

/** A payer may accept less, or more, of what was asked for, and nothing else. */
const changedRefusal = (
  { asked, costs }: VariationState,
  decision: 'accepted' | 'declined',
  changed: NonNullable<CommandPayload<'decideVariation'>['changed']>,
): Refused | null => {
  const targets = new Set(asked.map(({ target }) => targetKey(target)))
  const isAsked =
    changed.lines.every(({ target }) => targets.has(targetKey(target))) &&
    changed.costs.every(({ costId }) => costs.some((cost) => cost.costId === costId))
  return firstRefusal(
    refuseIf(
      decision === 'declined',
      'bad-input',
      'What is declined has no other hours.',
      'Accept it with the changed hours, or decline it as it is.',
    ),
    refuseIf(
      !isAsked,
      'bad-input',
      'The answer names work that was not asked for.',
      'Raise another variation for it.',
    ),
    refuseIf(
      changed.lines.every(({ hours }) => hours === 0) && changed.costs.every(({ amount }) => amount === 0),
      'bad-input',
      'Nothing of it is accepted.',
      'Record it as declined, or give the hours that were accepted.',
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
    return authorised + givenBack + hoursOn(lines, target) < 0
  })
  return refuseIf(
    isTooMuch,
    'not-now',
    `'${title}' takes back more hours than are still authorised.`,
    'Decline it, and raise another with the hours that are there now.',
  )
}

/** Work on one finding is paid once. */
const twiceRefusal = (
  car: CarState,
  variation: Pick<VariationState, 'id' | 'findings'>,
  next: string,
): Refused | null => {
  const other = [...car.variations.values()].find(
    (each) =>
      each.id !== variation.id &&
      isAgreed(each.status) &&
      each.findings.some((id) => variation.findings.includes(id)),
  )
  return refuseIf(
    other !== undefined,
    'already',
    `'${other?.title}' was accepted for the same finding.`,
    next,
  )
}

const findVariation = (car: CarState, id: VariationId): Result<VariationState> => {
  const variation = car.variations.get(id)
  return variation ? ok(variation) : refuse('unknown', 'This variation is not known.', 'Reload the car.')
}
