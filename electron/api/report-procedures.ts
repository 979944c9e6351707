import { z } from 'zod'
import { weekSchema } from '../../domain/facts/shapes.ts'
import { commandIdSchema, reportIdSchema, visitIdSchema } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import { reportChoicesSchema } from '../../domain/report/report-choices.ts'
import { parseIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'
import type { ApiServices } from './api-services.ts'
import { readOwnerReports } from './owner-reports-view.ts'
import { RefusedError } from './refused-error.ts'
import type { IssueAnswer, ReportDesk } from './report-desk.ts'
import { managersProcedure, procedure } from './trpc.ts'

export type DraftAnswer =
  | { readonly ok: true; readonly content: OwnerWeek }
  | { readonly ok: false; readonly refusal: Refusal }

export type PrepareAnswer =
  | { readonly ok: true; readonly problems: readonly string[] }
  | { readonly ok: false; readonly refusal: Refusal }

const ofWeek = z.strictObject({ week: weekSchema })
const ofReport = ofWeek.extend({ visitId: visitIdSchema })
const draftSchema = ofReport.extend({ choices: reportChoicesSchema })
/** Both ids are made by the screen, so that issuing twice is harmless. */
const issueSchema = draftSchema.extend({ reportId: reportIdSchema, commandId: commandIdSchema })

/** The owner reports of a week: listed, drafted, prepared and issued by a signed-in manager. */
export function createReportProcedures(services: ApiServices, desk: ReportDesk) {
  const { deps } = services
  return {
    ownerReports: procedure
      .input(ofWeek)
      .query(({ input }) => readOwnerReports(deps.db, knownWeek(input.week))),

    draftReport: procedure.input(draftSchema).mutation(({ input }): DraftAnswer => {
      const found = desk.draft({ ...input, week: knownWeek(input.week) }, input.choices)
      return found.ok ? { ok: true, content: found.value.content } : found
    }),

    prepareReport: procedure.input(ofReport).mutation(async ({ input }): Promise<PrepareAnswer> => {
      const prepared = await desk.prepare({ ...input, week: knownWeek(input.week) })
      return prepared.ok ? { ok: true, problems: prepared.value.problems } : prepared
    }),

    issueReport: managersProcedure
      .input(issueSchema)
      .mutation(async ({ input, ctx }): Promise<IssueAnswer> => {
        return desk.issue({ ...input, week: knownWeek(input.week) }, ctx.by, ctx.asker)
      }),
  }
}

function knownWeek(text: string): IsoWeek {
  const week = parseIsoWeek(text)
  if (!week.ok) throw new RefusedError(week.refusal)
  return week.value
}
