import { Link, useNavigate } from '@tanstack/react-router'
import { parseIsoWeek } from '../../domain/time/iso-week.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './owner-reports.module.css'
import type { ReportsView } from './report-shapes.ts'

/** Week by week, or straight to one by its number. */
export function WeekChooser({ view }: { readonly view: ReportsView }) {
  const when = useWhen()
  const navigate = useNavigate()
  const go = (week: string) => {
    if (parseIsoWeek(week).ok) void navigate({ to: '/owner-reports', search: { week }, replace: true })
  }
  return (
    <nav className={styles.weeks} aria-label="Week">
      <Link to="/owner-reports" search={{ week: view.previous }} className="button">
        <span aria-hidden="true">←</span> <span className="hidden-word">week </span>
        {weekNumber(view.previous)}
      </Link>
      <label>
        <span className="hidden-word">ISO week</span>
        <input
          className="input"
          type="week"
          required
          value={view.week}
          onChange={(event) => go(event.target.value)}
        />
      </label>
      <Link to="/owner-reports" search={{ week: view.next }} className="button">
        <span className="hidden-word">week </span>
        {weekNumber(view.next)} <span aria-hidden="true">→</span>
      </Link>
      {view.week !== when.thisWeek && (
        <Link
          to="/owner-reports"
          search={{}}
          className={`word-button ${styles.thisWeek}`}
          activeOptions={{ exact: true }}
        >
          this week
        </Link>
      )}
    </nav>
  )
}

/** 'W47' */
const weekNumber = (week: string): string => week.slice(week.indexOf('W'))
