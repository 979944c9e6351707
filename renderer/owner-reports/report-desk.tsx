import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { WordButton } from '../parts/form/button.tsx'
import styles from './owner-reports.module.css'
import { DraftReport } from './draft-report.tsx'
import { IssuedReport } from './issued-report.tsx'
import type { Drafts, ReportLine, ReportsView } from './report-shapes.ts'

/** One car's letter of the week: issued and kept, or a draft to be worked on. */
export function ReportDesk({
  view,
  line,
  drafts,
}: {
  readonly view: ReportsView
  readonly line: ReportLine
  readonly drafts: Drafts
}) {
  const [isCorrecting, setIsCorrecting] = useState(false)
  return (
    <div className={styles.desk}>
      <div className={styles.ways}>
        <Link
          to="/owner-reports"
          search={{ week: view.week }}
          className={styles.back}
          activeOptions={{ exact: true }}
        >
          ← all reports of this week
        </Link>
        {line.issued.length > 0 && isCorrecting && (
          <WordButton onClick={() => setIsCorrecting(false)}>← what was issued</WordButton>
        )}
      </div>
      {line.issued.length > 0 && !isCorrecting ? (
        <IssuedReport line={line} onCorrect={() => setIsCorrecting(true)} />
      ) : (
        <DraftReport week={view.week} line={line} drafts={drafts} onIssued={() => setIsCorrecting(false)} />
      )}
    </div>
  )
}
