import { z } from 'zod'
import { refuse, type Result } from '../../domain/refusal.ts'
import { updateAddressSchema } from '../../domain/updates.ts'
import type { ApiServices } from './api-services.ts'
import { isManagerHere } from './is-manager-here.ts'
import type { Asker } from './pairing.ts'
import { RefusedError } from './refused-error.ts'
import { signedInManager } from './signed-in-manager.ts'
import { procedure } from './trpc.ts'
import type { UpdatesState } from './update-desk.ts'

const setSchema = z.strictObject({ address: updateAddressSchema.nullable() })

/** Whether newer versions are looked for, and where; for managers, and set at the host's own window. */
export function createUpdateProcedures(services: ApiServices) {
  const { deps, sessions } = services
  const asManager = (asker: Asker) => signedInManager(deps.db, sessions, asker)
  return {
    updates: procedure.query(({ ctx }): UpdatesState => {
      if (!isManagerHere(services, ctx.asker)) throw new RefusedError(managersOnly)
      return deps.updates.state()
    }),

    setUpdates: procedure.input(setSchema).mutation(({ input, ctx }): Result<true> => {
      if (!ctx.asker.isHostsOwn) return notHere
      const manager = asManager(ctx.asker)
      return manager.ok ? deps.updates.set(input.address) : manager
    }),

    lookForUpdate: procedure.mutation(async ({ ctx }): Promise<Result<true>> => {
      const manager = asManager(ctx.asker)
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
