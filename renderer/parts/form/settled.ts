import type { Outcome } from '../../outbox/outcome.ts'

/** The act is done, or kept on this device until the host is back, to be sent or signed: the form that sent it may close. */
export const isSettled = ({ is }: Outcome): boolean => is === 'done' || is === 'kept' || is === 'prepared'

/** The same of what adds something: sent a second time, after what followed it was refused, it is there already. */
export const isThere = (outcome: Outcome): boolean =>
  isSettled(outcome) || (outcome.is === 'refused' && outcome.refusal.code === 'already')
