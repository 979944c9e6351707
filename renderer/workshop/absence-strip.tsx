import { addDays, daysBetween, weekdayNumber } from '../../domain/time/local-date.ts'
import { dateToIsoWeek } from '../../domain/time/iso-week.ts'
import styles from './people.module.css'

const WEEKS = 10
const WIDTH = 270
const DAY = WIDTH / (WEEKS * 7)

/** The next ten weeks as a line, a tick at every Monday; a bar is an absence. */
export function AbsenceStrip({
  absences,
  from: today,
}: {
  readonly absences: readonly { readonly from: string; readonly to: string }[]
  readonly from: string
}) {
  const monday = addDays(today, 1 - weekdayNumber(today))
  const x = (date: string) => Math.min(WIDTH, Math.max(0, daysBetween(monday, date) * DAY))
  return (
    <svg className={styles.months} viewBox={`0 0 ${WIDTH} 34`} aria-hidden="true">
      <line className={styles.rail} x1={0} x2={WIDTH} y1={14} y2={14} />
      {Array.from({ length: WEEKS }, (_, week) => {
        const date = addDays(monday, week * 7)
        return (
          <g key={date}>
            <line className={styles.rail} x1={x(date) + 0.5} x2={x(date) + 0.5} y1={9} y2={19} />
            {week % 3 === 0 && (
              <text className={styles.label} x={x(date) + 3} y={31}>
                W{dateToIsoWeek(date).week}
              </text>
            )}
          </g>
        )
      })}
      {absences.map(({ from, to }) => (
        <rect
          key={from}
          className={styles.away}
          x={x(from)}
          width={Math.max(0, x(addDays(to, 1)) - x(from))}
          y={8}
          height={12}
        />
      ))}
    </svg>
  )
}
