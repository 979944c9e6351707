import { memo, useMemo } from 'react'
import type { LaidBlock, LaidRow } from '../../domain/drawing/plan-layout.ts'
import { movePath } from '../../domain/drawing/plan-shapes.ts'
import { type TimeScale, xOf } from '../../domain/drawing/plan-scale.ts'
import { closedStretches } from '../../domain/drawing/plan-ticks.ts'
import type { CarId } from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import type { PlanDay } from '../../domain/views/plan-view-shapes.ts'
import { type BlockLook, DrawnBlock } from './drawn-block.tsx'
import styles from './drawing.module.css'
import { type DrawnWindow, STRIP, useDrawnWindow, type WindowStore } from './drawn-window.ts'

/** Which block or car stands out. */
export interface Marks {
  readonly key: string | null
  readonly carId: CarId | null
  /** Of the stay that is carried. */
  readonly heldKey: string | null
}

interface Props {
  readonly rows: readonly LaidRow[]
  readonly height: number
  readonly shown: WindowStore
  readonly look: BlockLook
  readonly marks: Marks
  readonly plan: Plan
}

/** Everything between the head and the names of the rows. Only what lies in the window is in the page. */
export const DrawnField = memo(function DrawnField({ rows, height, shown, look, marks, plan }: Props) {
  const window = useDrawnWindow(shown)
  const strips = useMemo(() => cutIntoStrips(rows), [rows])
  const first = Math.max(0, Math.floor(window.from / STRIP))
  const last = Math.floor(window.to / STRIP)
  const long = strips.long.filter(({ x, width }) => x + width >= window.from && x <= window.to)
  return (
    <>
      <Ground days={look.days} scale={look.scale} rows={rows} height={height} window={window} />
      <svg className={styles.layer} height={height} width={1} aria-hidden="true">
        {long.map((laid) => (
          <DrawnBlock key={laid.block.key} laid={laid} look={look} {...markOf(laid, marks)} />
        ))}
      </svg>
      {Array.from({ length: last - first + 1 }, (_, step) => (
        <Strip
          key={first + step}
          blocks={strips.short.get(first + step) ?? NONE}
          height={height}
          look={look}
          marks={marks}
        />
      ))}
      <Moves plan={plan} rows={rows} scale={look.scale} height={height} window={window} />
    </>
  )
})

const NONE: readonly LaidBlock[] = []

const Strip = memo(function Strip({
  blocks,
  height,
  look,
  marks,
}: {
  readonly blocks: readonly LaidBlock[]
  readonly height: number
  readonly look: BlockLook
  readonly marks: Marks
}) {
  return (
    <svg className={styles.layer} height={height} width={1} aria-hidden="true">
      {blocks.map((laid) => (
        <DrawnBlock key={laid.block.key} laid={laid} look={look} {...markOf(laid, marks)} />
      ))}
    </svg>
  )
})

function markOf({ block }: LaidBlock, { key, carId, heldKey }: Marks) {
  const isOfCar = carId !== null && 'carId' in block && block.carId === carId
  return { isChosen: block.key === key, isMarked: isOfCar, isHeld: block.key === heldKey }
}

/** Blocks by the strip that their left edge lies in; those wider than a strip apart. */
function cutIntoStrips(rows: readonly LaidRow[]) {
  const short = new Map<number, LaidBlock[]>()
  const long: LaidBlock[] = []
  for (const laid of rows.flatMap((row) => row.blocks)) {
    const strip = Math.floor(laid.x / STRIP)
    const of = short.get(strip)
    if (laid.width > STRIP) long.push(laid)
    else if (of === undefined) short.set(strip, [laid])
    else of.push(laid)
  }
  return { short, long }
}

const Ground = memo(function Ground({
  days,
  scale,
  rows,
  height,
  window,
}: {
  readonly days: readonly PlanDay[]
  readonly scale: TimeScale
  readonly rows: readonly LaidRow[]
  readonly height: number
  readonly window: DrawnWindow
}) {
  const closed = useMemo(() => closedStretches(days, scale), [days, scale])
  const inSight = closed.filter(({ x, width }) => x + width >= window.from && x <= window.to)
  const path = (isDay: boolean) =>
    inSight
      .filter((each) => each.isDay === isDay)
      .map(({ x, width }) => `M${x} 0h${width}V${height}h${-width}Z`)
      .join('')
  const dayLines = scale.perDay >= 20 ? days : days.filter((_, index) => index % 7 === 0)
  const lines = dayLines
    .map((day) => xOf(scale, day.from))
    .filter((x) => x >= window.from && x <= window.to)
    .map((x) => `M${x} 0V${height}`)
    .join('')
  const across = rows.map((row) => `M${window.from} ${row.y + row.height}H${window.to}`).join('')
  const parts = rows
    .filter((row, index) => index > 0 && rows[index - 1]?.row.kind !== row.row.kind)
    .map((row) => `M${window.from} ${row.y}H${window.to}`)
    .join('')
  return (
    <svg className={styles.layer} height={height} width={1} aria-hidden="true">
      <path className={styles.night} d={path(false)} />
      <path className={styles.dayOff} d={path(true)} />
      <path className={styles.fineLine} d={lines} />
      <path className={styles.fineLine} d={across} />
      <OffTime rows={rows} days={days} scale={scale} />
      <path className={styles.strongLine} d={parts} />
    </svg>
  )
})

/** Days on which a person is off, barred, with the word beside the bars. */
function OffTime({
  rows,
  days,
  scale,
}: {
  readonly rows: readonly LaidRow[]
  readonly days: readonly PlanDay[]
  readonly scale: TimeScale
}) {
  return rows.flatMap(({ row, y, height }) => {
    if (row.kind !== 'person') return []
    return row.person.off.map((off) => {
      const within = days.filter(({ date }) => date >= off.from && date <= off.to)
      const [first, last] = [within[0], within.at(-1)]
      if (first === undefined || last === undefined) return null
      const x = xOf(scale, first.from)
      const width = xOf(scale, last.to) - x
      return (
        <g key={`${row.key} ${off.from}`}>
          <rect className={styles.offBars} x={x} y={y + 3} width={width} height={height - 6} />
          <rect fill="url(#plan-off)" x={x} y={y + 3} width={width} height={height - 6} />
          {width > 30 && (
            <text className={styles.offWords} x={x + 5} y={y + height / 2 + 4}>
              off
            </text>
          )}
        </g>
      )
    })
  })
}

/** Shells on their way from bay to bay. */
const Moves = memo(function Moves({
  plan,
  rows,
  scale,
  height,
  window,
}: {
  readonly plan: Plan
  readonly rows: readonly LaidRow[]
  readonly scale: TimeScale
  readonly height: number
  readonly window: DrawnWindow
}) {
  if (scale.perDay < MOVES_FROM) return null
  const edges = new Map(
    rows.flatMap(({ row, blocks }) => (row.kind === 'bay' ? [[row.bay.bayId, blocks] as const] : [])),
  )
  const paths = plan.moves.flatMap((move) => {
    const x = xOf(scale, move.finish)
    if (x < window.from || x > window.to) return []
    const from = move.from === null ? undefined : ofCar(edges.get(move.from), move.carId, x)
    const to = ofCar(edges.get(move.to), move.carId, x)
    if (from === undefined || to === undefined) return []
    return [from.y < to.y ? movePath(x, from.y + from.height, to.y) : movePath(x, from.y, to.y + to.height)]
  })
  return (
    <svg className={styles.layer} height={height} width={1} aria-hidden="true">
      <path className={styles.move} d={paths.join('')} />
    </svg>
  )
})

/** Closer together than this, arrows between the bays would hide them. */
const MOVES_FROM = 16

/** The car's stay that begins or ends nearest to x. */
function ofCar(blocks: readonly LaidBlock[] | undefined, carId: CarId, x: number): LaidBlock | undefined {
  const away = (laid: LaidBlock) => Math.min(Math.abs(laid.x - x), Math.abs(laid.x + laid.width - x))
  return blocks
    ?.filter(({ block }) => 'carId' in block && block.carId === carId)
    .toSorted((a, b) => away(a) - away(b))[0]
}
