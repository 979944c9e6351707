import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { saveFile } from '../parts/frame/save-file.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { IssuedBefore } from './issued-before.tsx'
import styles from './owner-reports.module.css'
import type { ReportLine } from './report-shapes.ts'

/** The page alone, without the viewer's own bars and as wide as there is room. */
const PLAIN_VIEW = '#toolbar=0&navpanes=0&view=FitH'

/** What went out, as it went out: the file itself, never told anew. */
export function IssuedReport({
  line,
  onCorrect,
}: {
  readonly line: ReportLine
  readonly onCorrect: () => void
}) {
  const when = useWhen()
  const [last, ...earlier] = line.issued
  if (last === undefined) return null
  const before = [...earlier, ...(line.before === null ? [] : [line.before])]
  return (
    <div className={styles.columns}>
      <div className={styles.issued}>
        {/* The program's own window has no PDF viewer, by choice: it saves the file instead. */}
        {navigator.pdfViewerEnabled ? (
          <iframe
            title={`${line.carName}, ${last.title}`}
            src={`/reports/${last.reportId}.pdf${PLAIN_VIEW}`}
          />
        ) : (
          <p className="quiet">This screen shows no PDF within a page: open or save it with the button.</p>
        )}
      </div>
      <aside className={`stack ${styles.side}`} aria-label="The issued report">
        <Notice kind="done">
          <p className="strong">
            Report {last.number}, issued {when.dayAndTime(last.at)}
          </p>
          <p>
            by {last.by}, to {line.owner}. It is kept as it is and never changes.
          </p>
        </Notice>
        <a className="button main" href={`/reports/${last.reportId}.pdf`} target="_blank" rel="noreferrer">
          Open the PDF
        </a>
        {last.hasPage && (
          <a className="button" href={`/reports/${last.reportId}.html`} download>
            Save the page for a phone
          </a>
        )}
        <SaveMail hasEmail={line.ownerHasEmail} reportId={last.reportId} />
        <Button onClick={onCorrect}>Correct it</Button>
        <p className="small quiet">
          A correction is a new report. It starts from this one, says that it takes the place of report{' '}
          {last.number}, and report {last.number} stays as it is.
        </p>
        {before.length > 0 && <IssuedBefore reports={before} />}
      </aside>
    </div>
  )
}

/** The host gives it to a signed-in manager only, so that the code is asked for first. */
function SaveMail({ hasEmail, reportId }: { readonly hasEmail: boolean; readonly reportId: string }) {
  const { askManager } = useActor()
  if (!hasEmail) {
    return (
      <p className="small quiet">
        To send it by e-mail, enter the owner’s e-mail address on the Workshop screen under Contacts.
      </p>
    )
  }
  return (
    <Button
      onClick={() =>
        void askManager().then((manager) => manager !== null && saveFile(`/reports/${reportId}.eml`))
      }
    >
      Save as an e-mail
    </Button>
  )
}
