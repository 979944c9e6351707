import type { CarState, Spending, VisitState } from '../car.ts'
import type { AgreedCost } from './agreed-costs.ts'
import { goodsMoney } from './money-sum.ts'
import type { MoneyFigure, Posting } from './posting.ts'

/**
 * What parts, materials and outside work of a visit come to. Until its repair is finished an agreed cost has earned what was
 * spent on it, up to its amount, then all of it. Once its repair was retired or closed as found, what is not spent leaves the
 * authorised.
 *
 * @param today local date, for amounts that stand on no day of their own
 */
export function goodsPostings(
  car: CarState,
  visit: VisitState,
  costs: readonly AgreedCost[],
  today: string,
): readonly Posting[] {
  const isCurrent = visit.id === car.currentVisit
  const spendings = [...car.spendings.values()].filter(({ visitId }) => visitId === visit.id)
  return [
    ...costs.flatMap((cost) => costPostings(cost, isCurrent, today)),
    ...spendingPostings(spendings, costs),
  ]
}

function costPostings(cost: AgreedCost, isCurrent: boolean, date: string): readonly Posting[] {
  const { payer, amount, baseline, agreed, spent, end } = cost
  const post = (figure: MoneyFigure, minor: number): Posting => ({
    payer,
    figure,
    sum: goodsMoney(minor),
    date,
  })
  const first = post('baseline', baseline)
  if (agreed === null) return [first, post('waiting', end === 'left' ? 0 : amount)]
  const authorised = end === 'left' ? Math.min(amount, spent) : amount
  return [
    first,
    post('authorised', authorised),
    post('earned', end === 'open' ? Math.min(amount, spent) : authorised),
    post('expected', end === 'open' && isCurrent ? Math.max(0, amount - spent) : 0),
  ]
}

/** What a payer has authorised of a line is spent first; the rest, and what is on no line of that payer, is beyond. */
function spendingPostings(spendings: readonly Spending[], costs: readonly AgreedCost[]): readonly Posting[] {
  const left = new Map<string, number>(
    costs.flatMap(({ costId, payer, amount, agreed }) =>
      agreed === null ? [] : [[`${costId}/${payer}`, amount] as const],
    ),
  )
  return spendings.flatMap(({ costId, payer, amount, date }) => {
    const key = `${costId}/${payer}`
    const within = Math.min(amount, left.get(key) ?? 0)
    left.set(key, (left.get(key) ?? 0) - within)
    const post = (figure: MoneyFigure, minor: number): Posting => ({
      payer,
      figure,
      sum: goodsMoney(minor),
      date,
    })
    return [post('spent', amount), post('expected', amount), post('beyond', amount - within)]
  })
}
