import { TRPCError } from '@trpc/server'
import { refuse, type Refusal, type RefusalCode } from '../../domain/refusal.ts'

/** A refusal on its way out of a query, or of a call that is not for who makes it; what a mutation itself refuses it answers as a value. */
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
  'not-allowed': 'FORBIDDEN',
  'wrong-code': 'FORBIDDEN',
  locked: 'TOO_MANY_REQUESTS',
}

/** What people are told of a defect; the log says more. */
export const { refusal: defect } = refuse(
  'storage',
  'Something went wrong in Panelwright itself.',
  'Try again. If it stays so, look at the window where Panelwright was started and report what it says.',
)
