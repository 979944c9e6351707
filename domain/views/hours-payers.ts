import type { CarState } from '../car.ts'
import { PAYERS, type Payer } from '../facts/shapes.ts'
import { type AgreedHours, payerShares } from '../money/agreed-hours.ts'
import type { TargetFigures } from '../value/hours.ts'
import { noHours } from '../value/hours.ts'
import type { HoursPair } from './shared-views.ts'

/** One payer's part of the hours of a gate or task; the parts add up to them. */
export interface PayerPart {
  readonly payer: Payer
  /** 0 to 1: the part of what is spent on it, and of what is still to do. */
  readonly share: number
  readonly hours: HoursPair
}

/**
 * Authorised and waiting hours are each payer's own; what is given back leaves them all alike. Spent hours are shared as
 * their money is: by what each has authorised, else by what each is asked for, else all to the payer that is named.
 */
export function payerParts(
  car: CarState,
  { target, hours }: TargetFigures,
  agreed: readonly AgreedHours[],
): readonly PayerPart[] {
  const shares = new Map(payerShares(car, target, agreed))
  const all = [...shares.values()].reduce((sum, share) => sum + share, 0)
  const before = hours.authorised + hours.givenBack
  const kept = before === 0 ? 0 : hours.authorised / before
  const isEarned = hours.earned !== 0
  return PAYERS.flatMap((payer) => {
    const own = agreed.filter((each) => each.payer === payer)
    const share = (shares.get(payer) ?? 0) / all
    if (own.length === 0 && share === 0) return []
    const sumOf = (isAgreed: boolean) =>
      own.reduce((sum, each) => ((each.agreed !== null) === isAgreed ? sum + each.hours : sum), 0)
    const authorised = sumOf(true) * kept
    return [
      {
        payer,
        share,
        hours: {
          ...noHours,
          authorised,
          waiting: hours.waiting === 0 ? 0 : sumOf(false),
          earned: isEarned ? authorised : 0,
          spent: hours.spent * share,
          rework: hours.rework * share,
          givenBack: sumOf(true) * (1 - kept),
        },
      },
    ]
  })
}
