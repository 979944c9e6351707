import type { CommandId, ReportId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { api, client, isHostAway, queryClient } from '../client.ts'
import { newId } from '../parts/new-id.ts'
import type { ReportLine } from './report-shapes.ts'

/** Made once for each report that is to go out, so that issuing it twice is harmless. */
export interface IssueIds {
  readonly reportId: ReportId
  readonly commandId: CommandId
}

export const createIssueIds = (): IssueIds => ({
  reportId: newId<ReportId>(),
  commandId: newId<CommandId>(),
})

/** Prints, keeps and records one report. Null when it is out, else why it is not. */
export async function issueReport(
  line: ReportLine,
  week: string,
  choices: ReportChoices,
  ids: IssueIds,
): Promise<Refusal | null> {
  try {
    const answer = await client.issueReport.mutate({
      visitId: line.visitId,
      week,
      choices,
      ...ids,
    })
    if (answer.ok) {
      await queryClient.invalidateQueries({ queryKey: api.ownerReports.queryKey() })
      return null
    }
    if (answer.refusal.code === 'not-allowed')
      void queryClient.invalidateQueries({ queryKey: api.session.queryKey() })
    return answer.refusal
  } catch (error) {
    return isHostAway(error)
      ? {
          code: 'not-now',
          message: 'The host cannot be reached.',
          next: 'Try again when the connection is back; the report is issued only once.',
        }
      : {
          code: 'storage',
          message: 'The report could not be printed.',
          next: error instanceof Error ? error.message : 'Try again.',
        }
  }
}
