import { mm } from '../../domain/text/words.ts'
import type { DimensionView } from '../../domain/views/view-shapes.ts'
import styles from './dimensions.module.css'

const WIDTH = 300
const HEIGHT = 84
const LEFT = 8
const RIGHT = 52

type Reading = DimensionView['readings'][number]

/**
 * Readings about the target, the latest on the right, with the limit as a band: a filled dot inside, an open square
 * outside, a cross where a reading was taken another way and cannot be compared.
 */
export function DriftStrip({ dimension }: { readonly dimension: DimensionView }) {
  const { limitMm, targetMm, name } = dimension
  const readings = dimension.readings.toReversed()
  const drifts = readings.map((reading) => reading.mm - targetMm)
  const reach = Math.max(limitMm * 1.6, ...drifts.map(Math.abs)) * 1.1
  const x = (index: number) => LEFT + ((WIDTH - LEFT - RIGHT) * (index + 0.5)) / Math.max(1, readings.length)
  const y = (drift: number) => HEIGHT / 2 - (drift / reach) * (HEIGHT / 2 - 6)
  const [high, low] = [y(limitMm), y(-limitMm)]
  return (
    <svg
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      className={styles.drift}
      role="img"
      aria-label={`Readings of ${name} against its target`}
    >
      <rect x={LEFT} y={high} width={WIDTH - LEFT - RIGHT} height={low - high} className={styles.limit} />
      <path d={`M${LEFT} ${high}H${WIDTH - RIGHT}M${LEFT} ${low}H${WIDTH - RIGHT}`} className={styles.edge} />
      <path d={`M${LEFT} ${HEIGHT / 2}H${WIDTH - RIGHT}`} className={styles.target} />
      <text x={WIDTH - RIGHT + 5} y={high + 4} className={styles.words}>
        +{mm(limitMm)}
      </text>
      <text x={WIDTH - RIGHT + 5} y={low + 4} className={styles.words}>
        −{mm(limitMm)}
      </text>
      {readings.map((reading, index) => (
        <Dot key={reading.at} reading={reading} x={x(index)} y={y(reading.mm - targetMm)} />
      ))}
    </svg>
  )
}

function Dot({
  reading: { inside },
  x,
  y,
}: {
  readonly reading: Reading
  readonly x: number
  readonly y: number
}) {
  if (inside === null) return <path d={`M${x - 4} ${y - 4}l8 8m0 -8l-8 8`} className={styles.other} />
  return inside ? (
    <circle cx={x} cy={y} r={4} className={styles.inside} />
  ) : (
    <rect x={x - 4} y={y - 4} width={8} height={8} className={styles.outside} />
  )
}
