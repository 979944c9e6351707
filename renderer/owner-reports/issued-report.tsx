import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/button.tsx'
import { Notice } from '../parts/notice.tsx'
import { useWhen } from '../parts/when.tsx'
import { IssuedBefore } from './issued-before.tsx'
import styles from './owner-reports.module.css'
import { isoWeekNumber } from './report-words.ts'
import type { ReportLine } from './report-shapes.ts'

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
  return (
    <div className={styles.columns}>
      <div className={styles.issued}>
        <iframe title={`${line.carName}, ${last.title}`} src={`/reports/${last.reportId}.pdf`} />
      </div>
      <aside className={`stack ${styles.side}`}>
        <Notice kind="done">
          <p className="strong">Issued {when.dayAndTime(last.at)}</p>
          <p>
            by {last.by}, to {line.owner}. It is kept as it is and never changes.
          </p>
        </Notice>
        <a className="button main" href={`/reports/${last.reportId}.pdf`} target="_blank" rel="noreferrer">
          Open the PDF
        </a>
        <Button onClick={onCorrect}>Write a correction</Button>
        <p className="small quiet">
          A correction is a report of its own: it says which one it takes the place of, and both are kept.
        </p>
        {earlier.length > 0 && (
          <p className="small">
            {plural('earlier one', earlier.length)} of {isoWeekNumber(last.week)}:
          </p>
        )}
        <IssuedBefore reports={[...earlier, ...(line.before === null ? [] : [line.before])]} />
      </aside>
    </div>
  )
}
