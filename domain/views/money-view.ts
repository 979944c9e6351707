import type { CarState, VisitState } from '../car.ts'
import type { CostKind, RateTable } from '../facts/money-facts.ts'
import type { Payer } from '../facts/shapes.ts'
import type { CarId, CostId, RepairId, SpendingId, VisitId } from '../ids.ts'
import { type AgreedCost, agreedCosts } from '../money/agreed-costs.ts'
import { chargeSentences, withoutRateWords } from '../money/charge-words.ts'
import { labourOf, type MoneySum, totalOf } from '../money/money-sum.ts'
import type { MoneyFigure } from '../money/posting.ts'
import { ratesInForce } from '../money/rates.ts'
import { type PayerMoney, visitMoney } from '../money/visit-money.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'

/** Minor units of the currency. */
export interface AmountView {
  /** Null when none of its hours has a rate. */
  readonly labour: number | null
  /** Parts, materials and outside work. */
  readonly goods: number
  readonly total: number | null
  /** Person-hours that no rate is set for; they are missing from the amounts. */
  readonly unpricedHours: number
}

export type FigureName = MoneyFigure | 'asked'
export type FiguresView = Readonly<Record<FigureName, AmountView>>

export interface CostView extends Pick<
  AgreedCost,
  'costId' | 'repairId' | 'kind' | 'name' | 'payer' | 'amount' | 'spent' | 'variation'
> {
  /** Null for a line of a variation. */
  readonly baseline: number | null
  readonly accepted: boolean
  /** On the estimate, never accepted, and nothing is spent on it. */
  readonly mayTakeOff: boolean
  /** Nothing more is spent on it: its repair is finished, or was given up. */
  readonly ended: boolean
  readonly repair: string
}

export interface SpendingView {
  readonly spendingId: SpendingId
  /** Journal number, to void it by. */
  readonly number: number
  readonly date: string
  readonly kind: CostKind
  readonly name: string
  readonly repair: string
  readonly payer: Payer
  readonly amount: number
  /** The agreed line that it is spent on. */
  readonly costName: string | null
}

/** The money of a car's visit that goes on; for managers. */
export interface MoneyView {
  readonly carId: CarId
  readonly carName: string
  /** Null when no visit goes on. */
  readonly visitId: VisitId | null
  readonly currency: string
  /** How the visit is charged, and what that comes to. */
  readonly charge: readonly string[]
  /** What cannot be reckoned for want of a rate. */
  readonly withoutRate: string | null
  readonly payers: readonly (FiguresView & { readonly payer: Payer })[]
  readonly whole: FiguresView | null
  readonly costs: readonly CostView[]
  /** The latest day first. */
  readonly spendings: readonly SpendingView[]
  /** Those of this visit. */
  readonly mayPay: readonly Payer[]
  readonly repairs: readonly { readonly id: RepairId; readonly name: string }[]
}

/** @returns no figures and no lines when no visit goes on */
export function moneyView({ car, ...input }: ViewInput & { readonly car: CarState }): MoneyView {
  const context = createViewContext(input)
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  const { currency } = context.workshop
  const shown = { carId: car.id, carName: car.name, currency }
  const repairs = [...car.repairs.values()]
    .filter(({ retired }) => retired === null)
    .map(({ id, plan }) => ({ id, name: plan.name }))
  if (visit === undefined || visit.from !== null) return { ...shown, ...noVisit, repairs }
  return { ...shown, ...visitParts(car, visit, context), repairs }
}

const noVisit = {
  visitId: null,
  charge: [],
  withoutRate: null,
  payers: [],
  whole: null,
  costs: [],
  spendings: [],
  mayPay: [],
} as const

function visitParts(
  car: CarState,
  visit: VisitState,
  context: ViewContext,
): Omit<MoneyView, 'carId' | 'carName' | 'currency' | 'repairs'> {
  const { workshop, year } = context
  const money = visitMoney(car, visit, context)
  const costs = agreedCosts(car, visit, workshop.zone)
  return {
    visitId: visit.id,
    charge: chargeSentences(visit, money, { currency: workshop.currency, year }),
    withoutRate: withoutRateWords(money.withoutRate, workshop.rates.length > 0, year),
    payers: money.byPayer.map((each) => ({ payer: each.payer, ...figuresView(each) })),
    whole: figuresView(money.whole),
    costs: costs.map((cost) => costView(car, cost)),
    spendings: spendingViews(car, visit, costs),
    mayPay: visit.insurerId === null ? ['owner', 'workshop'] : ['owner', 'insurer', 'workshop'],
  }
}

function figuresView(figures: Omit<PayerMoney, 'payer'>): FiguresView {
  return {
    baseline: amountView(figures.baseline),
    authorised: amountView(figures.authorised),
    waiting: amountView(figures.waiting),
    earned: amountView(figures.earned),
    spent: amountView(figures.spent),
    beyond: amountView(figures.beyond),
    expected: amountView(figures.expected),
    asked: amountView(figures.asked),
  }
}

const amountView = (sum: MoneySum): AmountView => ({
  labour: labourOf(sum),
  goods: sum.goods,
  total: totalOf(sum),
  unpricedHours: sum.unpricedHours,
})

function costView(car: CarState, cost: AgreedCost): CostView {
  const { costId, repairId, kind, name, payer, amount, spent, variation, baseline, agreed, end } = cost
  return {
    costId,
    repairId,
    kind,
    name,
    payer,
    amount,
    spent,
    variation,
    baseline: variation === null ? baseline : null,
    accepted: agreed !== null,
    mayTakeOff: variation === null && !cost.wasAccepted && spent === 0,
    ended: end !== 'open',
    repair: repairName(car, repairId),
  }
}

function spendingViews(
  car: CarState,
  visit: VisitState,
  costs: readonly AgreedCost[],
): readonly SpendingView[] {
  const names = new Map<CostId, string>(costs.map(({ costId, name }) => [costId, name]))
  return [...car.spendings.values()]
    .filter(({ visitId }) => visitId === visit.id)
    .toSorted((a, b) => b.date.localeCompare(a.date) || b.stamp.number - a.stamp.number)
    .map(({ id, stamp, date, kind, name, repairId, payer, amount, costId }) => ({
      spendingId: id,
      number: stamp.number,
      date,
      kind,
      name,
      repair: repairName(car, repairId),
      payer,
      amount,
      costName: costId === null ? null : (names.get(costId) ?? null),
    }))
}

const repairName = (car: CarState, id: RepairId | null): string =>
  id === null ? 'the whole car' : (car.repairs.get(id)?.plan.name ?? 'a repair that is gone')

/** The rates of the workshop; for managers. */
export interface RatesView {
  readonly currency: string
  /** The latest first. */
  readonly tables: readonly (RateTable & { readonly standing: 'coming' | 'in force' | 'earlier' })[]
  /** Of the people who work here. */
  readonly skills: readonly string[]
}

/** The workshop's rates in minor units per person-hour, with which of them are in force today. */
export function ratesView(input: ViewInput): RatesView {
  const { workshop, today } = createViewContext(input)
  const inForce = ratesInForce(workshop.rates, today)
  const skills = [...workshop.people.values()].flatMap((person) => (person.active ? person.skills : []))
  return {
    currency: workshop.currency,
    tables: workshop.rates
      .map((table) => ({
        ...table,
        standing:
          table === inForce
            ? ('in force' as const)
            : table.from > today
              ? ('coming' as const)
              : ('earlier' as const),
      }))
      .toReversed(),
    skills: [...new Set(skills)].toSorted((a, b) => a.localeCompare(b)),
  }
}
