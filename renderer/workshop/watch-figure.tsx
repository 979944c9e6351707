import styles from './limits.module.css'

const WIDTH = 320
const MOST_SHOWN = 120

/** The watch on a line of two hours or more: the hatched part can never be taken off. */
export function WatchFigure({ minutes }: { readonly minutes: number }) {
  const full = Math.max(MOST_SHOWN, minutes)
  const x = (at: number) => 4 + (at / full) * (WIDTH - 8)
  const marks = [0, 30, 60, 90, 120].filter((each) => each <= full)
  return (
    <svg
      className={styles.figure}
      viewBox={`0 0 ${WIDTH} 64`}
      role="img"
      aria-label={`Fire watch of ${minutes} minutes, of which 30 are fixed`}
    >
      <rect className={styles.solid} x={x(0)} y={14} width={x(minutes) - x(0)} height={16} />
      <rect className={styles.fixed} x={x(0)} y={14} width={x(30) - x(0)} height={16} />
      <path
        className={styles.hatch}
        d={Array.from({ length: 10 }, (_, n) => `M${x(n * 3)} 30L${x(n * 3 + 3)} 14`).join('')}
      />
      <line className={styles.axis} x1={x(0)} x2={x(full)} y1={36} y2={36} />
      {marks.map((at) => (
        <g key={at}>
          <line className={styles.axis} x1={x(at)} x2={x(at)} y1={33} y2={39} />
          <text
            className={styles.words}
            x={x(at)}
            y={53}
            textAnchor={at === 0 ? 'start' : at === full ? 'end' : 'middle'}
          >
            {at} min
          </text>
        </g>
      ))}
    </svg>
  )
}
