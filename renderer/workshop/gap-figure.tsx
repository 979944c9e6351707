import { fixed } from '../../domain/text/words.ts'
import styles from './limits.module.css'

const WIDTH = 320
/** Units that a millimetre is drawn with: much enlarged. */
const MM = 9

/** Two panel edges cut through: the gap between them, and the step that one may stand proud. */
export function GapFigure({
  nominal,
  tolerance,
  flush,
}: {
  readonly nominal: number
  readonly tolerance: number
  readonly flush: number
}) {
  const gap = Math.min(nominal * MM, 120)
  const step = Math.min(flush * MM, 24)
  const middle = WIDTH / 2
  const left = middle - gap / 2
  const right = middle + gap / 2
  return (
    <svg
      className={styles.figure}
      viewBox={`0 0 ${WIDTH} 120`}
      role="img"
      aria-label={`Gap of ${fixed(nominal, 1)} mm, ${fixed(tolerance, 1)} mm more or less; step of at most ${fixed(flush, 1)} mm`}
    >
      <path
        className={styles.metal}
        d={`M8 60H${left - 10}Q${left} 60 ${left} 70V104H${left - 9}V71Q${left - 9} 69 ${left - 12} 69H8Z`}
      />
      <path
        className={styles.metal}
        d={`M${WIDTH - 8} 60H${right + 10}Q${right} 60 ${right} 70V104H${right + 9}V71Q${right + 9} 69 ${right + 12} 69H${WIDTH - 8}Z`}
      />
      <path
        className={styles.ghost}
        d={`M${WIDTH - 8} ${60 - step}H${right + 10}Q${right} ${60 - step} ${right} ${70 - step}`}
      />
      <path
        className={styles.measure}
        d={`M${left} 28V56M${right} 28V56M${left} 34H${right}M${left} 31V37M${right} 31V37`}
      />
      <text className={styles.words} x={middle} y={22} textAnchor="middle">
        {fixed(nominal, 1)} ± {fixed(tolerance, 1)} mm
      </text>
      <path
        className={styles.measure}
        d={`M${WIDTH - 60} ${60 - step}V60M${WIDTH - 64} 60H${WIDTH - 56}M${WIDTH - 64} ${60 - step}H${WIDTH - 56}`}
      />
      <text className={styles.words} x={WIDTH - 8} y={54 - step} textAnchor="end">
        step {fixed(flush, 1)} mm
      </text>
    </svg>
  )
}
