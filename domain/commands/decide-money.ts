import type { CarState } from '../car.ts'
import { fact, type NewFact, type PayloadOf } from '../facts.ts'
import type { CostId, RepairId } from '../ids.ts'
import { refuse } from '../refusal.ts'
import { localDateOf } from '../time/zone.ts'
import {
  currentVisit,
  findVisit,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  type Decider,
  type Refused,
} from './deciders.ts'

type MoneyKind = 'setCosts' | 'takeCostOff' | 'spendCost' | 'setRates'

export const moneyDeciders: { readonly [K in MoneyKind]: Decider<K> } = {
  setCosts: onCar((payload, { car }) => {
    const visit = currentVisit(car)
    if (!visit.ok) return visit
    const ids = payload.costs.map(({ costId }) => costId)
    return (
      firstRefusal(
        refuseIf(
          visit.value.id !== payload.visitId,
          'not-now',
          'This is not the visit that is going on.',
          'Reload the car.',
        ),
        sameCostRefusal(ids),
        ...payload.costs.map(({ repairId }) => costRepairRefusal(car, repairId)),
      ) ?? record(...costFacts(payload))
    )
  }),

  takeCostOff: onCar((payload, { car }) => {
    const visit = currentVisit(car)
    if (!visit.ok) return visit
    const cost = visit.value.id === payload.visitId ? visit.value.costs.get(payload.costId) : undefined
    if (cost === undefined)
      return refuse(
        'unknown',
        'This cost is not on the estimate of the visit that is going on.',
        'Reload the car.',
      )
    return (
      firstRefusal(
        refuseIf(
          cost.wasAccepted,
          'not-now',
          `${cost.name} was accepted by the ${cost.payer} and stays on the estimate.`,
          'Set its amount to 0, and let its payer accept that.',
        ),
        refuseIf(
          isSpentOn(car, cost.costId),
          'not-now',
          `Something was spent on ${cost.name}.`,
          'Void what was never spent, then take the cost off.',
        ),
      ) ?? record(fact('costTakenOff', payload))
    )
  }),

  spendCost: onCar((payload, { car, now, workshop }) => {
    const visit = findVisit(car, payload.visitId)
    if (!visit.ok) return visit
    const known = payload.costId === null || agreedCostIds(car).has(payload.costId)
    return (
      firstRefusal(
        refuseIf(
          car.spendings.has(payload.spendingId),
          'already',
          'This cost is entered already.',
          'Nothing to do.',
        ),
        refuseIf(
          payload.date > localDateOf(now, workshop.zone),
          'bad-input',
          'The date lies in the future.',
          'Enter a cost once it is paid or taken from the shelf.',
        ),
        refuseIf(!known, 'unknown', 'The agreed cost is not known.', 'Reload the car.'),
        costRepairRefusal(car, payload.repairId),
      ) ?? record(fact('costSpent', payload))
    )
  }),

  setRates: (payload) => {
    const skills = payload.bySkill.map(({ skill }) => skill)
    return (
      refuseIf(
        new Set(skills).size < skills.length,
        'bad-input',
        'A skill has two rates.',
        'Leave one of them out.',
      ) ?? record(fact('ratesSet', payload))
    )
  },
}

/** As with hours, what the workshop pays for itself needs nobody's answer. */
const costFacts = ({ visitId, costs }: PayloadOf<'costsSet'>): readonly NewFact[] => {
  const costIds = costs.filter(({ payer }) => payer === 'workshop').map(({ costId }) => costId)
  if (costIds.length === 0) return [fact('costsSet', { visitId, costs })]
  return [
    fact('costsSet', { visitId, costs }),
    fact('estimateAccepted', { visitId, payer: 'workshop', lineIds: [], costIds, how: 'visit', note: '' }),
  ]
}

/** What was voided is no longer among a car's spendings. */
const isSpentOn = (car: CarState, costId: CostId): boolean =>
  [...car.spendings.values()].some((spending) => spending.costId === costId)

/** @param repairId null for a cost of the whole car */
export const costRepairRefusal = (car: CarState, repairId: RepairId | null): Refused | null =>
  refuseIf(
    repairId !== null && !car.repairs.has(repairId),
    'unknown',
    'A cost is for a repair that is not known.',
    'Reload the car.',
  )

export const sameCostRefusal = (ids: readonly CostId[]): Refused | null =>
  refuseIf(
    new Set(ids).size < ids.length,
    'bad-input',
    'The same cost is there twice.',
    'Leave one of them out.',
  )

/** Of the estimates of all visits and of all variations. */
export const agreedCostIds = (car: CarState): ReadonlySet<string> =>
  new Set([
    ...[...car.visits.values()].flatMap((visit) => [...visit.costs.keys()]),
    ...[...car.variations.values()].flatMap(({ costs }) => costs.map(({ costId }) => costId)),
  ])
