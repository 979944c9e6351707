import type { Payer } from '../facts/shapes.ts'
import type { MoneySum } from './money-sum.ts'

/**
 * 'beyond' is the part of what is spent that nobody has authorised: on work above its authorised figure, or without one.
 * 'expected' is expected at completion.
 */
export type MoneyFigure = 'baseline' | 'authorised' | 'waiting' | 'earned' | 'spent' | 'beyond' | 'expected'

/** One amount in one figure of one payer; the figures are sums of these. */
export interface Posting {
  readonly payer: Payer
  readonly figure: MoneyFigure
  readonly sum: MoneySum
  /** Local date whose rate it takes. */
  readonly date: string
}
