import { z } from 'zod'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { CheckState } from './check-desk.ts'
import { folderSchema } from './folder-schema.ts'
import { requireManagerHere, signedInManager } from './manager-here.ts'
import { procedure } from './trpc.ts'

const mendSchema = z.strictObject({ from: folderSchema.nullable() })

/** The check of the workshop's folder and what it has found; for managers. */
export function createCheckProcedures(services: ApiServices) {
  const { deps } = services
  return {
    check: procedure.query(({ ctx }): CheckState => {
      requireManagerHere(services, ctx.asker, managersOnly)
      return deps.check.state()
    }),

    startCheck: procedure.mutation(({ ctx }): Result<true> => {
      const manager = signedInManager(services, ctx.asker)
      return manager.ok ? deps.check.start() : manager
    }),

    stopCheck: procedure.mutation(({ ctx }): Result<true> => {
      const manager = signedInManager(services, ctx.asker)
      if (!manager.ok) return manager
      deps.check.stop()
      return ok(true)
    }),

    /** Reading another folder of this computer is for who sits at it. */
    mendChecked: procedure
      .input(mendSchema)
      .mutation(({ input, ctx }): Promise<Result<true>> | Result<true> => {
        const manager = signedInManager(services, ctx.asker)
        if (!manager.ok) return manager
        if (input.from !== null && !ctx.asker.isHostsOwn) return notHere
        return deps.check.mend(input.from)
      }),
  }
}

const notHere = refuse(
  'not-allowed',
  'A folder with copies is named on the computer that Panelwright runs on.',
  'Open its own window there.',
)
const { refusal: managersOnly } = refuse(
  'not-allowed',
  'Only managers check the workshop’s folder.',
  'Sign in with a manager’s code on this device.',
)
