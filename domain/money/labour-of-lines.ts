import type { CarState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { WorkshopState } from '../workshop.ts'
import { labourMoney } from './money-sum.ts'
import { rateOn, skillOf } from './rates.ts'

/**
 * What the hours of some lines come to at the rates of one day, each line rounded by itself.
 *
 * @param date local date
 * @returns minor units; null as long as the hours of one line have no rate on that day
 */
export function labourOfLines(
  car: CarState,
  lines: readonly { readonly target: WorkTarget; readonly hours: number }[],
  date: string,
  { rates }: Pick<WorkshopState, 'rates'>,
): number | null {
  const priced = lines.map(({ target, hours }) =>
    labourMoney(hours, rateOn(rates, date, skillOf(car, target))),
  )
  if (priced.some(({ unpricedHours }) => unpricedHours !== 0)) return null
  return priced.reduce((sum, { labour }) => sum + labour, 0)
}
