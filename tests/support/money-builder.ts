import type { CarState } from '../../domain/car.ts'
import type { PayloadOf } from '../../domain/facts.ts'
import type { CostKind } from '../../domain/facts/money-facts.ts'
import type { Payer } from '../../domain/facts/shapes.ts'
import { costIdSchema, spendingIdSchema } from '../../domain/ids.ts'
import type { MoneySum } from '../../domain/money/money-sum.ts'
import { visitMoney, type VisitMoney } from '../../domain/money/visit-money.ts'
import type { CarBuilder } from './car-builder.ts'
import { repairId, visitId } from './car-builder.ts'
import { slug } from './plans.ts'
import { buildWorkshop } from './workshop-builder.ts'

export const costId = (name: string) => costIdSchema.parse(`cost-${slug(name)}`)
export const spendingId = (name: string) => spendingIdSchema.parse(`spending-${slug(name)}`)

interface CostOver {
  readonly payer?: Payer
  readonly kind?: CostKind
  /** The repair it is for; the whole car unless said. */
  readonly repair?: string
}

/** Minor units. */
export const cost = (
  name: string,
  amount: number,
  { payer = 'owner', kind = 'part', repair }: CostOver = {},
) => ({
  costId: costId(name),
  repairId: repair === undefined ? null : repairId(repair),
  kind,
  name,
  amount,
  payer,
})

export function estimateCost(car: CarBuilder, name: string, amount: number, over: CostOver = {}): CarBuilder {
  return car.add('costsSet', { visitId: visitId('first'), costs: [cost(name, amount, over)] })
}

export function acceptCost(car: CarBuilder, name: string, payer: Payer = 'owner'): CarBuilder {
  const answer = { how: 'letter', note: '' } as const
  return car.add('estimateAccepted', {
    visitId: visitId('first'),
    payer,
    lineIds: [],
    costIds: [costId(name)],
    ...answer,
  })
}

/** A bill on 23 Nov 2026 unless said. */
export function spend(
  car: CarBuilder,
  id: string,
  amount: number,
  {
    on = null,
    date = '2026-11-23',
    ...over
  }: CostOver & { readonly on?: string | null; readonly date?: string } = {},
): CarBuilder {
  const { costId: _, ...bill } = cost(id, amount, over)
  return car.add('costSpent', {
    ...bill,
    spendingId: spendingId(id),
    visitId: visitId('first'),
    costId: on === null ? null : costId(on),
    date,
  })
}

export type Rates = readonly PayloadOf<'ratesSet'>[]

export const workshopWith = (rates: Rates) =>
  buildWorkshop((add) => {
    for (const table of rates) add('ratesSet', table)
  })

/** Of the visit 'first', on Wed 25 Nov 2026 at 10:40 UTC unless said. */
export function moneyOf(car: CarState, rates: Rates, at = '2026-11-25T10:40:00Z'): VisitMoney {
  const visit = car.visits.get(visitId('first'))
  if (visit === undefined) throw new Error('the car has no first visit')
  return visitMoney(car, visit, { at: Date.parse(at), workshop: workshopWith(rates) })
}

export const labour = (amount: number): MoneySum => ({ labour: amount, goods: 0, unpricedHours: 0 })
export const goods = (amount: number): MoneySum => ({ labour: 0, goods: amount, unpricedHours: 0 })
