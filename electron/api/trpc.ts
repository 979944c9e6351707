import { initTRPC, type TRPCError } from '@trpc/server'
import { ZodError } from 'zod'
import type { PersonId } from '../../domain/ids.ts'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import { callerOf } from '../../domain/roles.ts'
import { diskRefusal } from './disk-refusal.ts'
import type { Asker } from './pairing.ts'
import { defect, RefusedError } from './refused-error.ts'

export interface ApiContext {
  /** The device that asks; app.ts lets no call through that comes from another. */
  readonly asker: Asker
  /** The manager who is signed in on it; a deed puts off the end of their session. */
  readonly managerHere: (isDeed: boolean) => PersonId | null
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
    return { ...shape, message: refusal.message, data: { ...shape.data, refusal } }
  },
})

export const { router } = t

/** A call that whoever the table of roles names may make. */
export const procedure = t.procedure.use(({ ctx, path, type, next }) => {
  const caller = callerOf(path)
  if (caller === 'everybody' || ctx.managerHere(type === 'mutation') !== null) return next()
  throw new RefusedError(refuse('not-allowed', caller.managersOnly, SIGN_IN).refusal)
})

/** One that is for managers and does something in their name. */
export const managersProcedure = procedure.use(({ ctx, next }) => {
  const by = ctx.managerHere(false)
  if (by === null) throw new RefusedError(defect)
  return next({ ctx: { by } })
})

const SIGN_IN = 'Sign in with a manager’s code on this device.'

function refusalOf(error: TRPCError): Refusal {
  if (error instanceof RefusedError) return error.refusal
  if (error.cause instanceof ZodError) return unread(error.cause.issues[0]?.message)
  const ofDisk = diskRefusal(error.cause)
  if (ofDisk !== null) return ofDisk
  if (error.code === 'INTERNAL_SERVER_ERROR') return defect
  return error.code === 'NOT_FOUND' || error.code === 'METHOD_NOT_SUPPORTED' ? noSuchCall : unread(undefined)
}

const unread = (message: string | undefined): Refusal =>
  refuse('bad-input', message ?? 'This cannot be read.', 'Reload the screen and try again.').refusal

const { refusal: noSuchCall } = refuse(
  'unknown',
  'This screen asks for something that this Panelwright does not know.',
  'Reload the screen, so that it is of the same version.',
)
