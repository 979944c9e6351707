import type { Context } from 'hono'
import { contactBook } from '../../db/contacts.ts'
import { eachCar, readWorkshop } from '../../db/reads.ts'
import type { PersonId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { gatesTable } from '../../domain/report/gates-table.ts'
import { dayRange, hoursTable, type DayRange } from '../../domain/report/hours-table.ts'
import type { LongTable } from '../../domain/report/table.ts'
import { variationsTable } from '../../domain/report/variations-table.ts'
import { mayShowPeople } from '../../domain/views/person-figures.ts'
import { createViewContext, type ViewContext } from '../../domain/views/view-context.ts'
import { answerCsv, answerXlsx } from './answer-table.ts'
import type { ApiServices } from './api-services.ts'
import { refused } from './guard.ts'
import { signedInManager } from './manager-here.ts'
import type { Asker } from './pairing.ts'

/**
 * `GET /take-out/hours.csv?from=…&to=…`, `gates.csv`, `variations.csv`, and each as `.xlsx`: what the workshop knows of its
 * hours, gates and variations, for a signed-in manager. Dates are local and both included; one left out is open.
 */
export async function serveTakeOut(c: Context, services: ApiServices, asker: Asker): Promise<Response> {
  const { deps } = services
  const manager = signedInManager(services, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const [of, as] = (c.req.param('file') ?? '').split('.')
  if (as !== 'csv' && as !== 'xlsx') return refused(c, 404, noSuchFile)
  const range = dayRange(c.req.query('from') || null, c.req.query('to') || null)
  if (!range.ok) return refused(c, 422, range.refusal)
  const made = takeOut(of, services, { by: manager.value, range: range.value })
  if (!made.ok) return refused(c, 404, made.refusal)
  const { table, name } = made.value
  return as === 'csv' ? answerCsv(c, deps, table, name) : answerXlsx(c, deps, [table], name)
}

interface Asked {
  readonly by: PersonId
  readonly range: DayRange
}

interface TakenOut {
  readonly table: LongTable
  readonly name: string
}

function takeOut(of: string | undefined, { deps }: ApiServices, asked: Asked): Result<TakenOut> {
  const { db, now } = deps
  const context = createViewContext({
    now: now(),
    workshop: readWorkshop(db),
    nameOf: contactBook(db).nameOf,
  })
  switch (of) {
    case 'hours':
      return ok({
        table: hoursTable(eachCar(db), { ...asked, context }),
        name: hoursName(asked, context),
      })
    case 'gates':
      return ok({ table: gatesTable(eachCar(db), context), name: 'Gates' })
    case 'variations':
      return ok({ table: variationsTable(eachCar(db), context), name: 'Variations' })
    default:
      return { ok: false, refusal: noSuchFile }
  }
}

/** Says what is in it, so that a file without names is not taken for hours of nobody. */
function hoursName({ by, range: { from, to } }: Asked, { workshop }: ViewContext): string {
  const days = `${from === null ? '' : ` from ${from}`}${to === null ? '' : ` to ${to}`}`
  return `Hours${days}${mayShowPeople(workshop, by) ? '' : ' without names'}`
}

const { refusal: noSuchFile } = refuse(
  'unknown',
  'There is no such file to take out.',
  'Choose one in Workshop, under Take out.',
)
