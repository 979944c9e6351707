import { initTRPC } from '@trpc/server'
import { ZodError } from 'zod'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import { diskRefusal } from './disk-refusal.ts'
import type { Asker } from './pairing.ts'
import { RefusedError } from './refused-error.ts'

export interface ApiContext {
  /** The device that asks; app.ts lets no call through that comes from another. */
  readonly asker: Asker
}

/** Errors carry their refusal and never a stack; a screen that hears nothing for a while connects anew. */
const t = initTRPC.context<ApiContext>().create({
  isDev: false,
  sse: {
    ping: { enabled: true, intervalMs: 5_000 },
    client: { reconnectAfterInactivityMs: 15_000 },
  },
  errorFormatter: ({ shape, error }) => {
    const refusal = refusalOf(error)
    const message = refusal?.message ?? 'Something went wrong in Panelwright itself.'
    return { ...shape, message, data: { ...shape.data, refusal } }
  },
})

export const { router, procedure } = t

function refusalOf(error: Error): Refusal | null {
  if (error instanceof RefusedError) return error.refusal
  if (!(error.cause instanceof ZodError)) return diskRefusal(error.cause)
  const issue = error.cause.issues[0]
  return refuse('bad-input', issue?.message ?? 'This cannot be read.', 'Reload the screen and try again.')
    .refusal
}
