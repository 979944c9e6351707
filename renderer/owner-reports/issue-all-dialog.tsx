import { useState } from 'react'
import { BatchDialog } from './batch-dialog.tsx'
import { createIssueIds, issueReport } from './issue.ts'
import { type Drafts, isOwn, type ReportLine, type ReportsView } from './report-shapes.ts'
import { isoWeekNumber, refusalProblem } from './report-words.ts'

/** All letters of the week that have not gone out. */
export function IssueAllDialog({
  view: { week },
  lines,
  drafts,
  onClose,
}: {
  readonly view: ReportsView
  readonly lines: readonly ReportLine[]
  readonly drafts: Drafts
  readonly onClose: () => void
}) {
  const [idsByVisit] = useState(() => new Map(lines.map(({ visitId }) => [visitId, createIssueIds()])))
  return (
    <BatchDialog
      title={`Issue all of ${isoWeekNumber(week)}`}
      lines={lines}
      noteOf={(line) => (isOwn(drafts.of(line), line) ? 'with your draft' : '')}
      explains="Each is printed, kept and never changed afterwards. Sending them stays with you."
      verb="Issue"
      past="issued"
      work={async (line) => {
        const ids = idsByVisit.get(line.visitId) ?? createIssueIds()
        const refusal = await issueReport(line, week, drafts.of(line), ids)
        if (refusal === null) drafts.forget(line.visitId)
        return refusalProblem(refusal)
      }}
      onClose={onClose}
    />
  )
}
