import type { Refusal } from '../../../domain/refusal.ts'

/** That no answer of the host came. @param next what to do, where trying again is not all */
export const hostAway = (next = 'Try again when the connection is back.'): Refusal => ({
  code: 'not-now',
  message: 'The host cannot be reached.',
  next,
})
