import type { CarState, VisitState } from '../car.ts'
import type { Payer } from '../facts/shapes.ts'
import { entryDate, entryPieces, type HoursContext, visitEntries } from '../value/entry-hours.ts'
import type { VisitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import { type AgreedHours, payerShares } from './agreed-hours.ts'
import { labourMoney, type MoneySum, splitMoney } from './money-sum.ts'
import { rateOn, skillOf } from './rates.ts'

/** One payer's part of the hours of a time entry on one gate or task. */
export interface SpentHours {
  readonly payer: Payer
  /** Local date worked on. */
  readonly date: string
  /** Person-hours within what is authorised of the gate or task, and beyond it. */
  readonly within: number
  readonly beyond: number
  readonly moneyWithin: MoneySum
  readonly moneyBeyond: MoneySum
}

/**
 * The hours of a visit's entries at the rates in force on the days worked, in the order of those days. The hours worked first
 * on a gate or task are the authorised ones; what is above its authorised figure is beyond.
 */
export function spentHours(
  car: CarState,
  visit: VisitState,
  agreed: ReadonlyMap<string, readonly AgreedHours[]>,
  figures: VisitFigures,
  context: HoursContext,
): readonly SpentHours[] {
  const { zone, rates } = context.workshop
  const left = new Map([...figures].map(([key, { hours }]) => [key, Math.max(0, hours.authorised)] as const))
  return visitEntries(car, visit.id)
    .map((entry) => ({ entry, date: entryDate(entry, zone) }))
    .toSorted((a, b) => a.date.localeCompare(b.date) || a.entry.stamp.number - b.entry.stamp.number)
    .flatMap(({ entry, date }) =>
      entryPieces(car, entry, context).flatMap(({ target, hours }) => {
        const key = targetKey(target)
        const within = Math.min(hours, left.get(key) ?? 0)
        left.set(key, (left.get(key) ?? 0) - within)
        const shares = payerShares(car, target, agreed.get(key) ?? [])
        const money = labourMoney(hours, rateOn(rates, date, skillOf(car, target)))
        return partsOf({ date, within, beyond: hours - within, money }, shares)
      }),
    )
}

interface Piece extends Pick<SpentHours, 'date' | 'within' | 'beyond'> {
  readonly money: MoneySum
}

/** The money of a piece is rounded once; its parts add up to it. */
function partsOf(
  { date, within, beyond, money }: Piece,
  shares: ReturnType<typeof payerShares>,
): readonly SpentHours[] {
  if (within + beyond <= 0) return []
  const proportions = shares.map(([, share]) => share)
  const all = proportions.reduce((sum, share) => sum + share, 0)
  const [moneyWithin = money, moneyBeyond = money] = splitMoney(money, [within, beyond])
  const parts = splitMoney(moneyWithin, proportions)
  const over = splitMoney(moneyBeyond, proportions)
  return shares.flatMap(([payer, share], index) => {
    const [own, ownOver] = [parts[index], over[index]]
    if (own === undefined || ownOver === undefined) return []
    return [
      {
        payer,
        date,
        within: (within * share) / all,
        beyond: (beyond * share) / all,
        moneyWithin: own,
        moneyBeyond: ownOver,
      },
    ]
  })
}
