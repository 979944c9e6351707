import { moneyWords } from '../../../domain/text/money-words.ts'
import { fixed } from '../../../domain/text/words.ts'
import type { HoursBand } from '../../../domain/views/variation-shapes.ts'

/** '14.0 h more', '3.0 h less' */
export const moreWords = (value: number): string =>
  `${fixed(Math.abs(value), 1)} h ${value < 0 ? 'less' : 'more'}`

/** '4.0 to 11.0 h', from the smaller change to the larger; the one figure when nothing is in doubt. */
export function rangeWords({ low, high }: HoursBand): string {
  if (low === high) return `${fixed(low, 1)} h`
  return high <= 0 ? `${minus(high)} to ${minus(low)} h` : `${minus(low)} to ${minus(high)} h`
}

/** '€300.00 to €840.00, likely €480.00' of amounts in minor units. */
export function moneyRange({ low, likely, high }: HoursBand, currency: string): string {
  const words = (amount: number) => moneyWords(amount, currency)
  return low === high ? words(likely) : `${words(low)} to ${words(high)}, likely ${words(likely)}`
}

const minus = (value: number): string => `${value < 0 ? '−' : ''}${fixed(Math.abs(value), 1)}`
