import { memo, useMemo } from 'react'
import { planTicks, type Tick } from '../../domain/drawing/plan-ticks.ts'
import { type TimeScale, xOf } from '../../domain/drawing/plan-scale.ts'
import { textWidth } from '../../domain/drawing/text-fit.ts'
import type { PlanDay } from '../../domain/views/plan-view-shapes.ts'
import styles from './drawing.module.css'
import { useDrawnWindow, type WindowStore } from './drawn-window.ts'

export const HEAD = 56

/** Weeks and days, months and weeks, or days and hours; and where now is. */
export const TimeHead = memo(function TimeHead({
  days,
  scale,
  zone,
  shown,
  now,
  nowWords,
}: {
  readonly days: readonly PlanDay[]
  readonly scale: TimeScale
  readonly zone: string
  readonly shown: WindowStore
  readonly now: number
  readonly nowWords: string
}) {
  const window = useDrawnWindow(shown)
  const ticks = useMemo(() => planTicks(days, scale, zone), [days, scale, zone])
  const inSight = ({ x, width }: Tick) => x + width >= window.from && x <= window.to
  const nowX = xOf(scale, now)
  const nowWidth = textWidth(nowWords, 12, true) + 12
  return (
    <div aria-hidden="true">
      {ticks.large.filter(inSight).map(({ x, width, words }) => (
        <div key={x} className={styles.headLarge} style={{ left: x, width }}>
          <span>{words}</span>
        </div>
      ))}
      <svg className={styles.layer} height={HEAD} width={1}>
        {ticks.small.filter(inSight).map(({ x, words }) => (
          <g key={x}>
            <path className={styles.headLine} d={`M${x} 26V${HEAD}`} />
            <text className={styles.headSmall} x={x + 5} y={38}>
              {words}
            </text>
          </g>
        ))}
        <rect className={styles.nowGround} x={nowX - 1} y={HEAD - 15} width={nowWidth} height={15} />
        <text className={styles.nowWords} x={nowX + 5} y={HEAD - 4}>
          {nowWords}
        </text>
      </svg>
    </div>
  )
})
