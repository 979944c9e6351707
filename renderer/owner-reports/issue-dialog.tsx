import { useState } from 'react'
import { type OwnerWeek, reportPhotos } from '../../domain/report/owner-week-shapes.ts'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { createIssueIds, issueReport } from './issue.ts'
import type { ReportLine } from './report-shapes.ts'
import { isoWeekNumber } from './report-words.ts'

/** Issuing is deliberate: it says what goes out, to whom, and that it cannot be changed afterwards. */
export function IssueDialog({
  week,
  line,
  content,
  choices,
  onIssued,
  onClose,
}: {
  readonly week: string
  readonly line: ReportLine
  readonly content: OwnerWeek
  readonly choices: ReportChoices
  readonly onIssued: () => void
  readonly onClose: () => void
}) {
  const [corrected] = line.issued
  const [ids] = useState(createIssueIds)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const [isBusy, setIsBusy] = useState(false)
  const issue = async () => {
    if (isBusy) return
    setIsBusy(true)
    const refused = await issueReport(line, week, choices, ids)
    setIsBusy(false)
    setRefusal(refused)
    if (refused !== null) return
    onIssued()
    onClose()
  }
  return (
    <Dialog
      title={`Issue report ${content.number}, ${isoWeekNumber(week)}${corrected === undefined ? '' : `, in the place of report ${corrected.number}`}`}
      isOpen
      onClose={onClose}
    >
      <ul className="lines">
        <li className="line">
          {line.carName}, to {line.owner}
        </li>
        <li className="line">{content.opening.join(' ')}</li>
        <li className="line">
          {[
            plural('photo', reportPhotos(content).length),
            content.words.length === 0 ? 'no words of your own' : 'with your own words',
            choices.names ? 'with the technicians’ names' : 'without technicians’ names',
          ].join(', ')}
        </li>
      </ul>
      <p className="quiet">
        The PDF and a page for a phone are made and kept. They never change afterwards; what was wrong in them
        is put right by a report of its own. Sending it to the owner stays with you.
      </p>
      <RefusalNote refusal={refusal} />
      <div className="button-row end">
        <Button onClick={onClose}>Cancel</Button>
        <Button kind="main" onClick={() => void issue()} aria-busy={isBusy} aria-disabled={isBusy}>
          {isBusy ? 'Printing it…' : 'Issue it'}
        </Button>
      </div>
    </Dialog>
  )
}
