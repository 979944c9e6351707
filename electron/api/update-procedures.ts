import { z } from 'zod'
import { refuse, type Result } from '../../domain/refusal.ts'
import { updateAddressSchema } from '../../domain/updates.ts'
import type { ApiServices } from './api-services.ts'
import { procedure } from './trpc.ts'
import type { UpdatesState } from './update-desk.ts'

const setSchema = z.strictObject({ address: updateAddressSchema.nullable() })

/** Whether newer versions are looked for, and where; for managers, and set at the host's own window. */
export function createUpdateProcedures({ deps }: ApiServices) {
  return {
    updates: procedure.query((): UpdatesState => deps.updates.state()),

    setUpdates: procedure
      .input(setSchema)
      .mutation(({ input, ctx }): Result<true> =>
        ctx.asker.isHostsOwn ? deps.updates.set(input.address) : notHere,
      ),

    lookForUpdate: procedure.mutation((): Promise<Result<true>> => deps.updates.lookNow()),
  }
}

const notHere = refuse(
  'not-allowed',
  'Where newer versions are looked for is set on the computer that Panelwright runs on.',
  'Open its own window there.',
)
