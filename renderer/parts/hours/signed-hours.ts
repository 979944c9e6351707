import { hours, LEAST_SAID_HOURS } from '../../../domain/text/words.ts'

/** '+3.5 h', '−12.0 h', '0.0 h' */
export function signedHours(value: number): string {
  const size = hours(Math.abs(value))
  return Math.abs(value) < LEAST_SAID_HOURS ? '0.0 h' : `${value < 0 ? '−' : '+'}${size}`
}
