import type { VisitState } from '../car.ts'
import type { Payer } from '../facts/shapes.ts'
import { addMoney, type MoneySum, noMoney, splitMoney } from './money-sum.ts'
import type { SpentHours } from './spent-hours.ts'

/** The hours that owner and insurer pay for at the most, and what was worked for them. */
export interface CapUse {
  readonly capHours: number
  /** Authorised person-hours worked for owner and insurer. */
  readonly usedHours: number
  /** Of them above the cap: the workshop carries this money. */
  readonly carried: MoneySum
}

/**
 * What a payer may be asked for so far. By the hour: what was spent within what is authorised. Capped: the same, of the hours
 * only those worked before the cap was reached. Fixed: what is authorised, whatever it took.
 *
 * @param figures of this payer
 */
export function askedFor(
  payer: Payer,
  visit: VisitState,
  figures: { readonly authorised: MoneySum; readonly spent: MoneySum; readonly beyond: MoneySum },
  spent: readonly SpentHours[],
): MoneySum {
  if (payer === 'workshop') return noMoney
  const { charge } = visit
  const { authorised, beyond } = figures
  if (charge.by === 'fixed') return authorised
  const goods = { ...noMoney, goods: figures.spent.goods - beyond.goods }
  const labour = cappedHours(visit, spent).filter((each) => each.payer === payer)
  return addMoney([goods, ...labour.map(({ asked }) => asked)])
}

/** Null for a visit without a cap. */
export function capUse(visit: VisitState, spent: readonly SpentHours[]): CapUse | null {
  if (visit.charge.by !== 'capped') return null
  const hours = cappedHours(visit, spent)
  return {
    capHours: visit.charge.capHours,
    usedHours: hours.reduce((sum, { within }) => sum + within, 0),
    carried: addMoney(hours.map(({ carried }) => carried)),
  }
}

interface CappedHours extends SpentHours {
  readonly asked: MoneySum
  readonly carried: MoneySum
}

/** The authorised hours of owner and insurer in the order of the days worked, parted at the cap. */
function cappedHours({ charge }: VisitState, spent: readonly SpentHours[]): readonly CappedHours[] {
  let left = charge.by === 'capped' ? charge.capHours : Infinity
  return spent
    .filter(({ payer, within }) => payer !== 'workshop' && within > 0)
    .map((each) => {
      const under = Math.min(each.within, left)
      left -= under
      const [asked = noMoney, carried = noMoney] = splitMoney(each.moneyWithin, [under, each.within - under])
      return { ...each, asked, carried }
    })
}
