import { useWhen } from '../parts/frame/when.tsx'
import { isoWeekNumber } from './report-words.ts'
import type { IssuedLine } from './report-shapes.ts'

/** Reports that went out earlier; each opens as the file that was kept. */
export function IssuedBefore({ reports }: { readonly reports: readonly IssuedLine[] }) {
  const when = useWhen()
  return (
    <section>
      <h3>Issued before</h3>
      {reports.length === 0 && <p className="quiet">Nothing yet: this is the first letter on this visit.</p>}
      <ul className="lines">
        {reports.map((report) => (
          <li key={report.reportId} className="line">
            <a href={`/reports/${report.reportId}.pdf`} target="_blank" rel="noreferrer">
              Report {report.number}, {isoWeekNumber(report.week)}
            </a>
            <span className="small quiet">
              {when.dayAndTime(report.at)}, {report.by}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
