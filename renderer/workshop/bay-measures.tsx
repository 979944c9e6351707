import type { BayPlace } from '../parts/drawing/bay-place.ts'
import { metres } from './bay-places.ts'
import styles from './bays.module.css'

/** Dimension lines above and left of the chosen bay. */
export function BayMeasures({
  place: { x, y, width, height },
  textSize,
}: {
  readonly place: BayPlace
  /** In tenths of a metre, as all of the plan. */
  readonly textSize: number
}) {
  const top = y - 4
  const left = x - 4
  return (
    <g className={styles.measures} aria-hidden="true">
      <path d={`M${x} ${top - 2}V${top + 2}M${x} ${top}H${x + width}M${x + width} ${top - 2}V${top + 2}`} />
      <text fontSize={textSize} x={x + width / 2} y={top - 2} textAnchor="middle">
        {metres(width)}
      </text>
      <path
        d={`M${left - 2} ${y}H${left + 2}M${left} ${y}V${y + height}M${left - 2} ${y + height}H${left + 2}`}
      />
      <text
        fontSize={textSize}
        x={left - 2}
        y={y + height / 2}
        textAnchor="middle"
        transform={`rotate(-90 ${left - 2} ${y + height / 2})`}
      >
        {metres(height)}
      </text>
    </g>
  )
}
