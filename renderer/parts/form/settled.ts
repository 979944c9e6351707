import type { Outcome } from '../../outbox/outcome.ts'

/** The act is done, or kept on this device until the host is back, to be sent or signed: the form that sent it may close. */
export const isSettled = ({ is }: Outcome): boolean => is === 'done' || is === 'kept' || is === 'prepared'
