import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { optionalNoteSchema, weekSchema } from '../../domain/facts/shapes.ts'
import { attachmentIdSchema, commandIdSchema, reportIdSchema, visitIdSchema } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import { parseIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'
import type { ApiServices } from './api-services.ts'
import { ownerReportsView } from './owner-reports-view.ts'
import { RefusedError } from './refused-error.ts'
import type { IssueAnswer, ReportDesk } from './report-desk.ts'
import { signedInManager } from './signed-in-manager.ts'
import { procedure } from './trpc.ts'

export type PrepareAnswer =
  | { readonly ok: true; readonly content: OwnerWeek }
  | { readonly ok: false; readonly refusal: Refusal }

const ofWeek = z.strictObject({ week: weekSchema })
const draftSchema = z.strictObject({
  visitId: visitIdSchema,
  week: weekSchema,
  words: optionalNoteSchema,
  /** Null leaves the choice to the report. */
  photos: z.array(attachmentIdSchema).max(60, 'Choose at most 60 photos.').nullable(),
})
/** Both ids are made by the screen, so that issuing twice is harmless. */
const issueSchema = draftSchema.extend({ reportId: reportIdSchema, commandId: commandIdSchema })

/** The owner reports of a week: listed, prepared and issued by a signed-in manager. */
export function createReportProcedures(services: ApiServices, desk: ReportDesk) {
  const { deps, sessions } = services
  return {
    ownerReports: procedure.input(ofWeek).query(({ input }) =>
      ownerReportsView({
        cars: readAllCars(deps.db),
        week: knownWeek(input.week),
        zone: readWorkshop(deps.db).zone,
        contacts: contactBook(deps.db),
        draftOf: desk.draftOf,
      }),
    ),

    prepareReport: procedure.input(draftSchema).mutation(({ input, ctx }): PrepareAnswer => {
      const manager = signedInManager(deps.db, sessions, ctx.asker)
      if (!manager.ok) return manager
      const week = knownWeek(input.week)
      const found = desk.content(input.visitId, week, input)
      if (!found.ok) return found
      desk.keepDraft(input.visitId, week, { words: input.words, photos: input.photos })
      return { ok: true, content: found.value.content }
    }),

    issueReport: procedure.input(issueSchema).mutation(async ({ input, ctx }): Promise<IssueAnswer> => {
      const manager = signedInManager(deps.db, sessions, ctx.asker)
      if (!manager.ok) return manager
      return desk.issue({ ...input, week: knownWeek(input.week) }, manager.value, ctx.asker)
    }),
  }
}

function knownWeek(text: string): IsoWeek {
  const week = parseIsoWeek(text)
  if (!week.ok) throw new RefusedError(week.refusal)
  return week.value
}
