import { BAY_BLOCK, type LaidRow } from '../../domain/drawing/plan-layout.ts'
import { type TimeScale, xOf } from '../../domain/drawing/plan-scale.ts'
import type { PlanDay } from '../../domain/views/plan-view-shapes.ts'
import styles from './drawing.module.css'
import type { PickedUp } from './pick-up.ts'
import { useShownPlan } from './plan-context.ts'

/** A stay where it would be put down. */
export function Ghost({
  picked,
  rows,
  days,
  scale,
}: {
  readonly picked: PickedUp | null
  readonly rows: readonly LaidRow[]
  readonly days: readonly PlanDay[]
  readonly scale: TimeScale
}) {
  const { names } = useShownPlan()
  if (picked === null) return null
  const { bayId, from, to } = picked.place
  const row = rows.find((each) => each.row.kind === 'bay' && each.row.bay.bayId === bayId)
  const first = days.find(({ date }) => date === from) ?? days[0]
  const last = days.find(({ date }) => date === to) ?? days.at(-1)
  if (row === undefined || first === undefined || last === undefined) return null
  const left = xOf(scale, first.from)
  return (
    <div
      className={styles.ghost}
      style={{ left, top: row.y + 4, width: xOf(scale, last.to) - left, height: BAY_BLOCK + 4 }}
    >
      {names.car(picked.carId)}
    </div>
  )
}
