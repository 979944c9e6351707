import { dimensionPath, flagPath } from '../../domain/drawing/plan-shapes.ts'
import { dayEnd } from '../../domain/time/zone.ts'
import type { PlanHistoryRow } from '../../domain/views/plan-view-shapes.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './drawing.module.css'
import { useShownPlan } from './plan-context.ts'

const WIDTH = 640
const LEFT = 96
const RIGHT = 20
const TOP = 26
const STEP = 20
/** More kept plans than this are told by the table only. */
const MOST = 16

/** Kept plans from top to bottom, each with its finish as a dimension line; the promised day goes through all of them. */
export function FinishHistory({
  rows,
  promised,
}: {
  readonly rows: readonly PlanHistoryRow[]
  readonly promised: string | null
}) {
  const { view } = useShownPlan()
  const when = useWhen()
  const known = rows
    .flatMap(({ keptAt, finish50, finish80 }) =>
      finish50 === null || finish80 === null ? [] : [{ keptAt, from: finish50, to: finish80 }],
    )
    .slice(-MOST)
  if (known.length < 2) return null
  const flagAt = promised === null ? null : dayEnd(promised, view.zone)
  const all = [...known.flatMap(({ from, to }) => [from, to]), ...(flagAt === null ? [] : [flagAt])]
  const [first, last] = [Math.min(...all), Math.max(...all)]
  const x = (at: number) => LEFT + ((at - first) / Math.max(1, last - first)) * (WIDTH - LEFT - RIGHT)
  const isRight = flagAt !== null && x(flagAt) > WIDTH / 2
  const height = TOP + known.length * STEP + 8
  return (
    <svg className="drawing" viewBox={`0 0 ${WIDTH} ${height}`} aria-hidden="true">
      {known.map(({ keptAt, from, to }, index) => {
        const y = TOP + index * STEP + STEP / 2
        const isLate = flagAt !== null && to > flagAt
        return (
          <g key={keptAt} className={isLate ? styles.late : undefined}>
            <path className={styles.fineLine} d={`M${LEFT} ${y + STEP / 2}H${WIDTH - RIGHT}`} />
            <text className={styles.headSmall} x={0} y={y + 4}>
              {when.day(keptAt)}
            </text>
            <path className={styles.dimension} d={dimensionPath(x(from), x(to), y)} />
          </g>
        )
      })}
      {flagAt !== null && promised !== null && (
        <>
          <path className={styles.flag} d={flagPath(x(flagAt), 4, height - 8)} />
          <text
            className={styles.finishWords}
            x={x(flagAt) + (isRight ? -16 : 6)}
            y={16}
            textAnchor={isRight ? 'end' : 'start'}
          >
            promised {when.day(promised)}
          </text>
        </>
      )}
    </svg>
  )
}
