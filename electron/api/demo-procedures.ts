import { DatabaseProblem } from '../../db/database-problem.ts'
import type { DemoProgress } from '../../db/demo/fill-demo.ts'
import { readWorkshop } from '../../db/reads.ts'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { procedure } from './trpc.ts'

export type DemoAnswer = { readonly ok: true } | { readonly ok: false; readonly refusal: Refusal }

/** Offered on the first run: to look around in a workshop that is at work already. */
export function createDemoProcedures({ deps, revisions }: ApiServices) {
  const { db } = deps
  let filling: Promise<void> | null = null
  let progress: DemoProgress | null = null

  const fill = async (): Promise<void> => {
    try {
      await deps.fillDemo((now) => {
        progress = now
      })
    } finally {
      filling = null
      progress = null
    }
  }

  return {
    /** Answers when the demo is filled, which takes up to a minute or two; asked again meanwhile, it waits for the same. */
    startDemo: procedure.mutation(async ({ ctx }): Promise<DemoAnswer> => {
      if (!ctx.asker.isHostsOwn) return notHere
      if (filling === null && readWorkshop(db).setUp) return setUpAlready
      filling ??= fill()
      try {
        await filling
      } catch (error) {
        if (error instanceof DatabaseProblem) return diskFailed(error)
        throw error
      }
      revisions.announce(false)
      return { ok: true }
    }),

    /** How far the filling has come; null when none goes on. */
    demoProgress: procedure.query((): DemoProgress | null => progress),
  }
}

const notHere = refuse(
  'not-allowed',
  'The demo is filled on the computer that Panelwright runs on.',
  'Open its own window there.',
)
const setUpAlready = refuse(
  'already',
  'There is a workshop in this data folder.',
  'Start Panelwright with --demo and an empty --data folder to look at the demo.',
)

function diskFailed(error: DatabaseProblem): DemoAnswer {
  return refuse('storage', error.message, 'Nothing of the demo was kept. Mend this, then start it again.')
}
