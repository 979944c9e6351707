import { client } from '../client.ts'
import { useWhen } from '../parts/when.tsx'
import { BatchDialog } from './batch-dialog.tsx'
import type { ReportLine, ReportsView } from './report-shapes.ts'
import { readReportsAgain, seeSessionEnd, troubleToRefusal } from './report-trouble.ts'
import { isoWeekNumber, refusalProblem } from './report-words.ts'
import type { BatchAnswer } from './use-batch.ts'

/** Builds and prints all letters of the week once, so that what is wrong is known before they are to go out. */
export function PrepareAllDialog({
  view: { week },
  lines,
  onClose,
}: {
  readonly view: ReportsView
  readonly lines: readonly ReportLine[]
  readonly onClose: () => void
}) {
  const when = useWhen()
  return (
    <BatchDialog
      title={`Prepare all of ${isoWeekNumber(week)}`}
      lines={lines}
      noteOf={({ prepared }) => (prepared === null ? '' : `prepared ${when.dayAndTime(prepared.at)}`)}
      explains="Each is built from what is recorded and printed once to see that it can go out. Nothing is issued."
      verb="Prepare"
      past="prepared"
      work={(line) => prepareReport(line, week)}
      onClose={onClose}
    />
  )
}

async function prepareReport({ visitId }: ReportLine, week: string): Promise<BatchAnswer> {
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
