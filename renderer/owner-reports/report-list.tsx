import { Link } from '@tanstack/react-router'
import { plural } from '../../domain/text/words.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './owner-reports.module.css'
import { type Drafts, isOwn, type ReportLine, type ReportsView } from './report-shapes.ts'

/** The cars of the week; a filled square says issued, an open dashed one that the letter has not gone out. */
export function ReportList({
  view,
  chosen,
  drafts,
}: {
  readonly view: ReportsView
  readonly chosen: ReportLine
  readonly drafts: Drafts
}) {
  return (
    <nav className={styles.list} aria-label="Reports of this week">
      <ul className="lines">
        {view.reports.map((line) => (
          <li key={line.visitId}>
            <Link
              to="/owner-reports"
              search={{ week: view.week, visit: line.visitId }}
              className={styles.car}
              {...(line.visitId === chosen.visitId && { 'aria-current': 'true' as const })}
            >
              <span className={line.issued.length > 0 ? styles.sent : styles.unsent} aria-hidden="true" />
              <span>
                <span className="strong">{line.carName}</span>
                <br />
                <span className="small quiet">
                  {line.owner}
                  {line.status !== 'in work' && `; ${line.status}`}
                </span>
                <br />
                <StateWords line={line} isWritten={isOwn(drafts.of(line), line)} />
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}

function StateWords({ line, isWritten }: { readonly line: ReportLine; readonly isWritten: boolean }) {
  const when = useWhen()
  const [last] = line.issued
  if (last !== undefined) {
    const times = line.issued.length > 1 ? `, ${line.issued.length} times` : ''
    return (
      <span className="small is-passed">
        issued {when.day(last.at)}
        {times}
      </span>
    )
  }
  return (
    <>
      <span className="small is-accent">not issued{isWritten && ', draft kept'}</span>
      {line.prepared !== null && (
        <>
          <br />
          <PreparedWords prepared={line.prepared} />
        </>
      )}
    </>
  )
}

function PreparedWords({
  prepared: { at, problems },
}: {
  readonly prepared: NonNullable<ReportLine['prepared']>
}) {
  const when = useWhen()
  return problems.length === 0 ? (
    <span className="small quiet">prepared {when.dayAndTime(at)}</span>
  ) : (
    <span className="small strong">
      {when.dayAndTime(at)}: {plural('thing', problems.length)} to put right
    </span>
  )
}
