import type { CommandId, ReportId } from '../../domain/ids.ts'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { client } from '../client.ts'
import { answered } from '../parts/frame/answered.ts'
import { newId } from '../parts/form/new-id.ts'
import type { ReportLine } from './report-shapes.ts'
import { readReportsAgain, seeSessionEnd, troubleWith } from './report-trouble.ts'

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
  { visitId }: ReportLine,
  week: string,
  choices: ReportChoices,
  ids: IssueIds,
): Promise<Refusal | null> {
  const answer = await answered(
    () => client.issueReport.mutate({ visitId, week, choices, ...ids }),
    'Try again when the connection is back; the report is issued only once.',
    troubleWith('issued'),
  )
  if (answer.ok) {
    await readReportsAgain()
    return null
  }
  seeSessionEnd(answer.refusal)
  return answer.refusal
}
