import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { clockHours, DAYS, dayHoursOf, shownHours, weekWordsOf } from './week-drawing.ts'
import styles from './week.module.css'

const LEFT = 44
const RIGHT = 64
const WIDTH = 720
const ROW = 30
const TOP = 22

/** The working week drawn to scale: days downwards, the clock from left to right, hours of each day at its end. */
export function WeekFigure({ week }: { readonly week: WorkingWeek }) {
  const { from, to } = shownHours(week)
  const x = (hour: number) => LEFT + ((hour - from) / (to - from)) * (WIDTH - LEFT - RIGHT)
  const hours = Array.from({ length: to - from + 1 }, (_, index) => from + index)
  const bottom = TOP + ROW * 7
  return (
    <svg
      className={styles.figure}
      viewBox={`0 0 ${WIDTH} ${bottom + 6}`}
      role="img"
      aria-label={weekWordsOf(week)}
    >
      {hours.map((hour) => (
        <g key={hour}>
          <line className={styles.rail} x1={x(hour)} x2={x(hour)} y1={TOP - 4} y2={bottom} />
          {hour % 2 === 0 && (
            <text className={styles.hour} x={x(hour)} y={TOP - 9} textAnchor="middle">
              {hour}:00
            </text>
          )}
        </g>
      ))}
      {week.map((spans, day) => {
        const y = TOP + day * ROW
        return (
          <g key={DAYS[day]}>
            <text className={styles.day} x={0} y={y + 19}>
              {DAYS[day]}
            </text>
            <line className={styles.base} x1={LEFT} x2={WIDTH - RIGHT} y1={y + ROW - 4} y2={y + ROW - 4} />
            {spans.map((span) => (
              <rect
                key={span.from}
                className={styles.span}
                x={x(clockHours(span.from))}
                width={Math.max(1, x(clockHours(span.to)) - x(clockHours(span.from)))}
                y={y + 5}
                height={ROW - 12}
              />
            ))}
            <text className={styles.hour} x={WIDTH} y={y + 19} textAnchor="end">
              {spans.length === 0 ? 'off' : `${dayHoursOf(spans)} h`}
            </text>
          </g>
        )
      })}
    </svg>
  )
}
