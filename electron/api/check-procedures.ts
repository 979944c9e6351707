import { z } from 'zod'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { CheckState } from './check-desk.ts'
import { folderSchema } from './folder-schema.ts'
import { procedure } from './trpc.ts'

const mendSchema = z.strictObject({ from: folderSchema.nullable() })

/** The check of the workshop's folder and what it has found; for managers. */
export function createCheckProcedures({ deps }: ApiServices) {
  return {
    check: procedure.query((): CheckState => deps.check.state()),

    startCheck: procedure.mutation((): Result<true> => deps.check.start()),

    stopCheck: procedure.mutation((): Result<true> => {
      deps.check.stop()
      return ok(true)
    }),

    /** Reading another folder of this computer is for who sits at it. */
    mendChecked: procedure
      .input(mendSchema)
      .mutation(({ input, ctx }): Promise<Result<true>> | Result<true> => {
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
