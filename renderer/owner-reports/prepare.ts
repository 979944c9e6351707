import { client } from '../client.ts'
import { answered } from '../parts/frame/answered.ts'
import type { ReportLine } from './report-shapes.ts'
import { readReportsAgain, seeSessionEnd, troubleWith } from './report-trouble.ts'
import { refusalProblem } from './report-words.ts'
import type { BatchAnswer } from './use-batch.ts'

/** Builds and prints one report to see that it can go out; the host keeps when, and what was wrong. */
export async function prepareReport({ visitId }: ReportLine, week: string): Promise<BatchAnswer> {
  const answer = await answered(
    () => client.prepareReport.mutate({ visitId, week }),
    undefined,
    troubleWith('prepared'),
  )
  if (answer.ok) {
    await readReportsAgain()
    return { isDone: true, problems: answer.problems, isInVain: false }
  }
  seeSessionEnd(answer.refusal)
  return refusalProblem(answer.refusal)
}
