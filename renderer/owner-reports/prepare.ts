import { client } from '../client.ts'
import type { ReportLine } from './report-shapes.ts'
import { readReportsAgain, seeSessionEnd, troubleToRefusal } from './report-trouble.ts'
import { refusalProblem } from './report-words.ts'
import type { BatchAnswer } from './use-batch.ts'

/** Builds and prints one report to see that it can go out; the host keeps when, and what was wrong. */
export async function prepareReport({ visitId }: ReportLine, week: string): Promise<BatchAnswer> {
  try {
    const answer = await client.prepareReport.mutate({ visitId, week })
    if (answer.ok) {
      await readReportsAgain()
      return { isDone: true, problems: answer.problems, isInVain: false }
    }
    seeSessionEnd(answer.refusal)
    return refusalProblem(answer.refusal)
  } catch (error) {
    return refusalProblem(troubleToRefusal(error, 'prepared'))
  }
}
