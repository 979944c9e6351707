import { hours } from '../../../domain/text/words.ts'

/** '+3.5 h', '−12.0 h'; what rounds to nothing has no sign: '0.0 h'. */
export function signedHours(value: number, decimals = 1): string {
  const size = hours(Math.abs(value), decimals)
  if (size === hours(0, decimals)) return size
  return `${value < 0 ? '−' : '+'}${size}`
}
