import type { CarState, VisitState } from '../car.ts'
import { PAYERS, type Payer } from '../facts/shapes.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { visitFigures } from '../value/hours.ts'
import { agreedCosts } from './agreed-costs.ts'
import { agreedHours } from './agreed-hours.ts'
import { askedFor, type CapUse, capUse } from './charge.ts'
import { goodsPostings } from './goods-postings.ts'
import { labourPostings } from './labour-postings.ts'
import { addMoney, type MoneySum } from './money-sum.ts'
import type { MoneyFigure, Posting } from './posting.ts'
import { spentHours } from './spent-hours.ts'

export type MoneyFigures = Readonly<Record<MoneyFigure, MoneySum>>

export interface PayerMoney extends MoneyFigures {
  readonly payer: Payer
  /** What this payer may be asked for so far, by how the visit is charged; the workshop asks itself for nothing. */
  readonly asked: MoneySum
}

export interface VisitMoney {
  /** Owner, insurer and workshop, those with any figure; they add up to the whole. */
  readonly byPayer: readonly PayerMoney[]
  readonly whole: MoneyFigures & Pick<PayerMoney, 'asked'>
  /** How much of a cap is used; null when the visit has none. */
  readonly cap: CapUse | null
  /** Local dates that hours have no rate for, in order. */
  readonly withoutRate: readonly string[]
}

/**
 * The money of a visit: hours at the rate in force on their day, with parts, materials and outside work. Authorised hours
 * take the rate of the day on which they were accepted, waiting ones and those still to do today's, spent ones that of the
 * day worked; the baseline that of the day on which its repair or task came into the visit. Earned is what is done at its
 * authorised money (EV), spent what it took (AC), expected is spent and what is still to do of the authorised (EAC).
 */
export function visitMoney(car: CarState, visit: VisitState, context: HoursContext): VisitMoney {
  const { zone } = context.workshop
  const figures = visitFigures(car, visit.id, context)
  const agreed = agreedHours(car, visit, zone)
  const spent = spentHours(car, visit, agreed, figures, context)
  const today = localDateOf(context.at, zone)
  const postings = [
    ...labourPostings(car, visit, { agreed, figures, spent, today }, context),
    ...goodsPostings(car, visit, agreedCosts(car, visit, zone), today),
  ]
  const payers = PAYERS.filter((payer) => postings.some((each) => each.payer === payer))
  const byPayer = payers.map((payer) => {
    const own = postings.filter((each) => each.payer === payer)
    const sums = sumFigures(own)
    return { payer, ...sums, asked: askedFor(payer, visit, sums, spent) }
  })
  return {
    byPayer,
    whole: { ...sumFigures(postings), asked: addMoney(byPayer.map(({ asked }) => asked)) },
    cap: capUse(visit, spent),
    withoutRate: datesWithoutRate(postings),
  }
}

function sumFigures(postings: readonly Posting[]): MoneyFigures {
  const sumOf = (figure: MoneyFigure): MoneySum =>
    addMoney(postings.filter((each) => each.figure === figure).map(({ sum }) => sum))
  return {
    baseline: sumOf('baseline'),
    authorised: sumOf('authorised'),
    waiting: sumOf('waiting'),
    earned: sumOf('earned'),
    spent: sumOf('spent'),
    beyond: sumOf('beyond'),
    expected: sumOf('expected'),
  }
}

const datesWithoutRate = (postings: readonly Posting[]): readonly string[] =>
  [...new Set(postings.flatMap(({ sum, date }) => (sum.unpricedHours === 0 ? [] : [date])))].toSorted()
