import styles from './limits.module.css'

const WIDTH = 320
const DAYS_SHOWN = 10
const TOP = 10
const HEIGHT = 22

/** Working days from today on: those that keep the plan in force are solid, the rest may be planned anew. */
export function KeptDaysFigure({ days }: { readonly days: number }) {
  const shown = Math.max(DAYS_SHOWN, days + 2)
  const kept = days === 0 ? 0 : days + 1
  const width = (WIDTH - 2) / shown
  return (
    <svg
      className={styles.figure}
      viewBox={`0 0 ${WIDTH} 54`}
      role="img"
      aria-label={
        kept === 0 ? 'No day keeps the plan' : `${kept} working days keep the plan, today among them`
      }
    >
      {Array.from({ length: shown }, (_, day) => (
        <rect
          key={day}
          className={day < kept ? styles.solid : styles.ghost}
          x={1 + day * width + 1}
          y={TOP}
          width={width - 2}
          height={HEIGHT}
        />
      ))}
      <text className={styles.words} x={2} y={48}>
        today
      </text>
    </svg>
  )
}
