import type { Context } from 'hono'
import { photoTotals } from '../../db/photo-rows.ts'
import { refuse } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { refused } from './guard.ts'
import type { Asker } from './pairing.ts'
import { isManagerHere } from './is-manager-here.ts'
import { RefusedError } from './refused-error.ts'
import { signedInManager } from './signed-in-manager.ts'
import { procedure } from './trpc.ts'
import type { WholeProgress } from './whole-desk.ts'

/** What there is to take out, and how far it is. */
export interface WholeView {
  readonly photos: number
  /** Of all photos, which are nearly all of it. */
  readonly photoBytes: number
  readonly progress: WholeProgress | null
}

export function createWholeProcedures(services: ApiServices) {
  const { deps } = services
  return {
    wholeWorkshop: procedure.query(({ ctx }): WholeView => {
      if (!isManagerHere(services, ctx.asker)) throw new RefusedError(managersOnly)
      return { ...photoTotals(deps.db), progress: deps.whole.progress() }
    }),
  }
}

/** `GET /whole-workshop.zip`: everything as one archive, streamed, for a signed-in manager. */
export function serveWhole(c: Context, { deps, sessions }: ApiServices, asker: Asker): Response {
  const manager = signedInManager(deps.db, sessions, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const begun = deps.whole.begin()
  if (!begun.ok) return refused(c, 422, begun.refusal)
  return c.body(begun.value.stream, 200, {
    'Content-Type': 'application/zip',
    'Content-Disposition': `attachment; filename="${begun.value.name}"`,
    'Cache-Control': 'no-store',
  })
}

const { refusal: managersOnly } = refuse(
  'not-allowed',
  'Only managers take the whole workshop out.',
  'Sign in with a manager’s code on this device.',
)
