import type { Outcome } from '../outbox/outcome.ts'

/** The act is done, or kept on this device until the host is back: the form that sent it may close. */
export const isSettled = (outcome: Outcome): boolean => outcome.is === 'done' || outcome.is === 'kept'
