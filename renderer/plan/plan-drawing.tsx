import { useMemo, useRef } from 'react'
import type { LaidRow } from '../../domain/drawing/plan-layout.ts'
import { scaleWidth, xOf } from '../../domain/drawing/plan-scale.ts'
import type { PlanDay } from '../../domain/views/plan-view-shapes.ts'
import { useWhen } from '../parts/frame/when.tsx'
import type { BlockLook } from './drawn-block.tsx'
import { DrawnField, type Marks } from './drawn-field.tsx'
import styles from './drawing.module.css'
import { Ghost } from './ghost.tsx'
import { HereButton } from './here-button.tsx'
import { useShownPlan } from './plan-context.ts'
import { RowNames } from './row-names.tsx'
import { HEAD, TimeHead } from './time-head.tsx'
import type { Carry } from './use-carry.ts'
import { useDrag } from './use-drag.ts'
import { useHere } from './use-here.ts'
import { NAMES, type TimeView } from './use-time-view.ts'

/** The plan drawn along time: bays, what is promised, people. The list says the same in words. */
export function PlanDrawing({
  rows,
  height,
  days,
  look,
  marks,
  time,
  now,
  carry,
  onChoose,
}: {
  readonly rows: readonly LaidRow[]
  readonly height: number
  readonly days: readonly PlanDay[]
  readonly look: BlockLook
  readonly marks: Marks
  readonly time: TimeView
  readonly now: number
  readonly carry: Carry
  readonly onChoose: (key: string | null) => void
}) {
  const { view, plan, canChange } = useShownPlan()
  const when = useWhen()
  const field = useRef<HTMLDivElement>(null)
  const here = useHere({ rows, time, now, carry, canChange, onChoose })
  const drag = useDrag({ rows, field, time, carry, canChange, onChoose, onTouch: here.put })
  const width = scaleWidth(time.scale)
  const nowWords = useMemo(() => `now, ${when.day(now).slice(0, 3)} ${when.time(now)}`, [now, when])
  return (
    <div
      ref={time.scroller}
      className={styles.sheet}
      onScroll={time.onScroll}
      role="group"
      aria-label="The plan, drawn. Arrow keys go from block to block; the list says the same in words."
    >
      <div className={styles.page} style={{ width: NAMES + width }}>
        <div className={styles.head} style={{ height: HEAD }}>
          <div className={styles.corner} />
          <div className={styles.headField} style={{ width }}>
            <TimeHead
              days={days}
              scale={time.scale}
              zone={view.zone}
              shown={time.shown}
              now={now}
              nowWords={nowWords}
            />
          </div>
        </div>
        <div className={styles.body} style={{ height }}>
          <div className={styles.names} {...drag.ofNames}>
            <RowNames rows={rows} />
            {here.at?.block === -1 && <HereButton here={here} />}
          </div>
          <div ref={field} className={styles.field} style={{ width, height }} {...drag.ofField}>
            <DrawnField
              rows={rows}
              height={height}
              shown={time.shown}
              look={look}
              marks={marks}
              plan={plan}
            />
            <div className={styles.now} style={{ left: xOf(time.scale, now) - 1 }} />
            <Ghost picked={carry.picked} rows={rows} days={days} scale={time.scale} />
            {here.at !== null && here.at.block >= 0 && <HereButton here={here} />}
          </div>
        </div>
      </div>
    </div>
  )
}
