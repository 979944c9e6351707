import { memo } from 'react'
import type { LaidBlock } from '../../domain/drawing/plan-layout.ts'
import type { FinishBlock, PlanBlock, PlanNames } from '../../domain/drawing/plan-rows.ts'
import { type TimeScale, xOf } from '../../domain/drawing/plan-scale.ts'
import { dimensionPath, flagPath, pausePath, pinPath, workBoxes } from '../../domain/drawing/plan-shapes.ts'
import { type Box, boxPath } from '../../domain/drawing/shapes.ts'
import { shorten, textWidth } from '../../domain/drawing/text-fit.ts'
import type { CarId } from '../../domain/ids.ts'
import { plural } from '../../domain/text/words.ts'
import type { PlanDay } from '../../domain/views/plan-view-shapes.ts'
import styles from './drawing.module.css'

/** What all blocks of one drawing share. */
export interface BlockLook {
  readonly names: PlanNames
  readonly scale: TimeScale
  readonly days: readonly PlanDay[]
  /** Days late by car, for the flags. */
  readonly late: ReadonlyMap<CarId, number>
}

/** One block; `isMarked` when its car is chosen, `isHeld` while it is carried somewhere else. */
export const DrawnBlock = memo(function DrawnBlock({
  laid,
  look,
  isChosen,
  isMarked,
  isHeld,
}: {
  readonly laid: LaidBlock
  readonly look: BlockLook
  readonly isChosen: boolean
  readonly isMarked: boolean
  readonly isHeld: boolean
}) {
  const { block } = laid
  const classes = [
    styles.block,
    styles[block.kind],
    isMarked && styles.marked,
    isChosen && styles.chosen,
    isHeld && styles.held,
  ]
  return (
    <g data-key={block.key} className={classes.filter(Boolean).join(' ')}>
      <Shape laid={laid} look={look} />
    </g>
  )
})

function Shape({ laid, look }: { readonly laid: LaidBlock; readonly look: BlockLook }) {
  const { block } = laid
  switch (block.kind) {
    case 'finish':
      return <Finish laid={laid} block={block} look={look} />
    case 'mixed':
      return <path className={styles.frame} d={boxPath(laid)} />
    case 'move':
      return <path className={styles.solid} d={boxPath(insetBy(laid, 5))} />
    default:
      return <Hatched laid={laid} block={block} look={look} />
  }
}

type HatchedBlock = Extract<PlanBlock, { readonly carId: CarId; readonly kind: 'stay' | 'work' | 'car' }>

function Hatched({
  laid,
  block,
  look,
}: {
  readonly laid: LaidBlock
  readonly block: HatchedBlock
  readonly look: BlockLook
}) {
  const boxes = block.kind === 'work' ? workBoxes(laid, block, look.days, look.scale) : [laid]
  const outline = boxes.map(boxPath).join('')
  const hatch = look.names.row(block.carId)?.hatch ?? 0
  const isPinned =
    block.kind === 'stay'
      ? block.stay.bookingId !== null
      : block.kind === 'work' && (block.work.pinned.people || block.work.pinned.day)
  return (
    <>
      {boxes.length > 1 && <path className={styles.pause} d={pausePath(boxes)} />}
      <path className={styles.sheetFill} d={outline} />
      {hatch % 12 !== 0 && <path d={outline} fill={`url(#plan-hatch-${hatch % 12})`} />}
      <path className={isPinned ? styles.pinnedFrame : styles.frame} d={outline} />
      {block.kind === 'work' && block.work.begun && (
        <path className={styles.solid} d={boxPath({ ...laid, width: Math.min(4, laid.width) })} />
      )}
      <Labels box={labelBox(laid, boxes, block, look.names)} block={block} names={look.names} />
      {isPinned && <Pins box={laid} both={block.kind === 'stay'} />}
    </>
  )
}

const SIZE = 12.5
/** A long block says its name again and again, so that it can be read wherever one looks. */
const AGAIN = 620

function Labels({
  box,
  block,
  names,
}: {
  readonly box: Box
  readonly block: HatchedBlock
  readonly names: PlanNames
}) {
  const room = box.width - 12
  if (room < 22) return null
  const name = shorten(names.car(block.carId), room, SIZE, true)
  const nameWidth = textWidth(name, SIZE, true)
  const rest = block.kind === 'work' ? shorten(names.work(block.work), room - nameWidth - 8, SIZE) : ''
  const isRestRead = rest.length > 3
  const width = nameWidth + (isRestRead ? textWidth(rest, SIZE) + 7 : 0)
  const count = block.kind === 'work' ? 1 : Math.max(1, Math.ceil((box.width - width - 40) / AGAIN))
  return Array.from({ length: count }, (_, index) => {
    const x = box.x + 6 + index * AGAIN
    return (
      <g key={index}>
        <rect
          className={styles.labelGround}
          x={x - 2}
          y={box.y + 2}
          width={width + 9}
          height={box.height - 4}
        />
        <text className={styles.label} x={x} y={box.y + box.height / 2 + 4.4}>
          {name}
          {isRestRead && (
            <tspan className={styles.labelRest} dx={6}>
              {rest}
            </tspan>
          )}
        </text>
      </g>
    )
  })
}

function Pins({ box, both }: { readonly box: Box; readonly both: boolean }) {
  const at =
    both && box.width > 30 ? [box.x + 6, box.x + box.width - 6] : [box.x + Math.min(6, box.width / 2)]
  return at.map((x) => {
    const { needle, head } = pinPath(x, box.y)
    return (
      <g key={x}>
        <path className={styles.needle} d={needle} />
        <path className={styles.solid} d={head} />
      </g>
    )
  })
}

function Finish({
  laid,
  block,
  look,
}: {
  readonly laid: LaidBlock
  readonly block: FinishBlock
  readonly look: BlockLook
}) {
  const { car, promisedBy } = block
  const late = look.late.get(block.carId) ?? 0
  const middle = laid.y + laid.height / 2 + 1
  const x = (at: number) => xOf(look.scale, at)
  const from = car.finish50 ?? car.finish
  const to = car.finish80 ?? car.finish
  const end = x(block.to)
  return (
    <g className={late > 0 ? styles.late : undefined}>
      <path className={styles.reach} d={boxPath(laid)} />
      <path className={styles.leader} d={`M${x(block.from)} ${middle}H${end}`} />
      {promisedBy !== null && (
        <path className={styles.flag} d={flagPath(x(promisedBy), laid.y, laid.height)} />
      )}
      {from !== null && to !== null && (
        <path className={styles.dimension} d={dimensionPath(x(from), x(to), middle)} />
      )}
      <text className={styles.finishWords} x={end + 8} y={middle + 4}>
        {look.names.car(block.carId)}
        {late > 0 && <tspan className={styles.lateWords}>, {plural('day', late)} late</tspan>}
      </text>
    </g>
  )
}

/** Words stand in the widest piece of the work; where it is too narrow for them they run on over the pauses. */
function labelBox(whole: Box, boxes: readonly Box[], block: HatchedBlock, names: PlanNames): Box {
  const widest = boxes.reduce((best, box) => (box.width > best.width + 1 ? box : best), boxes[0] ?? whole)
  const words = block.kind === 'work' ? `${names.car(block.carId)} ${names.work(block.work)}` : ''
  return textWidth(words, SIZE, true) + 12 <= widest.width ? widest : whole
}

const insetBy = ({ x, y, width, height }: Box, by: number): Box => ({
  x,
  y: y + by,
  width,
  height: height - 2 * by,
})
