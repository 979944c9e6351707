import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { WEEKDAYS } from '../../domain/text/words.ts'
import { clockHours, shownHours, weekWordsOf } from './week-drawing.ts'
import styles from './week.module.css'

const COLUMN = 17
const HEIGHT = 40

/** A working week small, beside a name: seven days, each a column of its hours from morning to evening. */
export function WeekStrip({ week }: { readonly week: WorkingWeek }) {
  const { from, to } = shownHours(week)
  const y = (time: string) => ((clockHours(time) - from) / (to - from)) * HEIGHT
  return (
    <svg
      className={styles.strip}
      width={COLUMN * 7}
      height={HEIGHT + 14}
      viewBox={`0 0 ${COLUMN * 7} ${HEIGHT + 14}`}
      role="img"
      aria-label={weekWordsOf(week)}
    >
      {week.map((spans, day) => (
        <g key={WEEKDAYS[day]} transform={`translate(${day * COLUMN} 0)`}>
          <line className={styles.rail} x1={COLUMN / 2} x2={COLUMN / 2} y1={0} y2={HEIGHT} />
          {spans.map((span) => (
            <rect
              key={span.from}
              className={styles.span}
              x={3}
              width={COLUMN - 6}
              y={y(span.from)}
              height={Math.max(1, y(span.to) - y(span.from))}
            />
          ))}
          <text className={styles.letter} x={COLUMN / 2} y={HEIGHT + 11} textAnchor="middle">
            {WEEKDAYS[day]?.charAt(0)}
          </text>
        </g>
      ))}
    </svg>
  )
}
