import { TRPCError } from '@trpc/server'
import type { Refusal, RefusalCode } from '../../domain/refusal.ts'

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
  'not-allowed': 'FORBIDDEN',
  'wrong-code': 'FORBIDDEN',
  locked: 'TOO_MANY_REQUESTS',
}
