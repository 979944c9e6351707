import { useWhen } from '../parts/frame/when.tsx'
import { BatchDialog } from './batch-dialog.tsx'
import { prepareReport } from './prepare.ts'
import type { ReportLine, ReportsView } from './report-shapes.ts'
import { isoWeekNumber } from './report-words.ts'

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
