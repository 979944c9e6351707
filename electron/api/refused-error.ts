import { TRPCError } from '@trpc/server'
import { refuse, type Refusal, type RefusalCode } from '../../domain/refusal.ts'

/** A refusal on its way out of a query; what is asked by a mutation answers it as a value instead. */
export class RefusedError extends TRPCError {
  readonly refusal: Refusal

  constructor(refusal: Refusal) {
    super({ code: STATUS[refusal.code] ?? 'CONFLICT', message: refusal.message })
    this.refusal = refusal
  }
}

const STATUS: Partial<Record<RefusalCode, TRPCError['code']>> = {
  'bad-input': 'BAD_REQUEST',
  unknown: 'NOT_FOUND',
  'not-paired': 'UNAUTHORIZED',
  'not-allowed': 'FORBIDDEN',
  'wrong-code': 'FORBIDDEN',
  locked: 'TOO_MANY_REQUESTS',
}

export const { refusal: notPaired } = refuse(
  'not-paired',
  'This screen is not paired with the workshop.',
  'Open Panelwright on its own computer, or use the address that it printed when it started.',
)
