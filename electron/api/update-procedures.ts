import { z } from 'zod'
import { refuse, type Result } from '../../domain/refusal.ts'
import { updateAddressSchema } from '../../domain/updates.ts'
import type { ApiServices } from './api-services.ts'
import { requireManagerHere, signedInManager } from './manager-here.ts'
import { procedure } from './trpc.ts'
import type { UpdatesState } from './update-desk.ts'

const setSchema = z.strictObject({ address: updateAddressSchema.nullable() })

/** Whether newer versions are looked for, and where; for managers, and set at the host's own window. */
export function createUpdateProcedures(services: ApiServices) {
  const { deps } = services
  return {
    updates: procedure.query(({ ctx }): UpdatesState => {
      requireManagerHere(services, ctx.asker, managersOnly)
      return deps.updates.state()
    }),

    setUpdates: procedure.input(setSchema).mutation(({ input, ctx }): Result<true> => {
      if (!ctx.asker.isHostsOwn) return notHere
      const manager = signedInManager(services, ctx.asker)
      return manager.ok ? deps.updates.set(input.address) : manager
    }),

    lookForUpdate: procedure.mutation(async ({ ctx }): Promise<Result<true>> => {
      const manager = signedInManager(services, ctx.asker)
      return manager.ok ? deps.updates.lookNow() : manager
    }),
  }
}

const notHere = refuse(
  'not-allowed',
  'Where newer versions are looked for is set on the computer that Panelwright runs on.',
  'Open its own window there.',
)
const { refusal: managersOnly } = refuse(
  'not-allowed',
  'Only managers see whether there is a newer version.',
  'Sign in with a manager’s code on this device.',
)
