import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { WEEKDAYS } from '../../domain/text/words.ts'
import { clockHours, dayHoursOf, shownHours, weekWordsOf } from './week-drawing.ts'
import { useWidth } from '../parts/frame/use-width.ts'
import styles from './week.module.css'

const LEFT = 44
const RIGHT = 52
const WIDEST = 720
const ROW = 30
const TOP = 22

/** The working week drawn to scale: days downwards, the clock from left to right, hours of each day at its end. */
export function WeekFigure({ week }: { readonly week: WorkingWeek }) {
  const { ref, width: room } = useWidth<HTMLDivElement>()
  return (
    <div ref={ref} className={styles.figure}>
      {room > 0 && <Drawn week={week} width={Math.min(room, WIDEST)} />}
    </div>
  )
}

function Drawn({ week, width }: { readonly week: WorkingWeek; readonly width: number }) {
  const { from, to } = shownHours(week)
  const x = (hour: number) => LEFT + ((hour - from) / (to - from)) * (width - LEFT - RIGHT)
  const every = width < 500 ? 4 : 2
  const hours = Array.from({ length: to - from + 1 }, (_, index) => from + index)
  const bottom = TOP + ROW * 7
  return (
    <svg width={width} height={bottom + 6} role="img" aria-label={weekWordsOf(week)}>
      {hours.map((hour) => (
        <g key={hour}>
          <line className={styles.rail} x1={x(hour)} x2={x(hour)} y1={TOP - 4} y2={bottom} />
          {hour % every === 0 && (
            <text className={styles.hour} x={x(hour)} y={TOP - 9} textAnchor="middle">
              {hour}:00
            </text>
          )}
        </g>
      ))}
      {week.map((spans, day) => {
        const y = TOP + day * ROW
        return (
          <g key={WEEKDAYS[day]}>
            <text className={styles.day} x={0} y={y + 19}>
              {WEEKDAYS[day]}
            </text>
            <line className={styles.base} x1={LEFT} x2={width - RIGHT} y1={y + ROW - 4} y2={y + ROW - 4} />
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
            <text className={styles.hour} x={width} y={y + 19} textAnchor="end">
              {spans.length === 0 ? 'off' : `${dayHoursOf(spans)} h`}
            </text>
          </g>
        )
      })}
    </svg>
  )
}
