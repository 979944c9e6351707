import { useEffect, useRef, type PointerEvent, type RefObject } from 'react'
import type { LaidRow } from '../../domain/drawing/plan-layout.ts'
import type { StayBlock } from '../../domain/drawing/plan-rows.ts'
import { blockAt, findBlock } from './find-block.ts'
import type { Carry } from './use-carry.ts'
import { NAMES, type TimeView } from './use-time-view.ts'

interface Held {
  readonly pointer: number
  readonly block: StayBlock
  readonly startX: number
  readonly startY: number
  isCarried: boolean
}

/** The pointer has to go so far before a stay is picked up; less is a click. */
const SLACK = 5
/** So near to an edge the drawing scrolls on under what is carried. */
const EDGE = 36
const EDGE_STEP = 14

/**
 * The mouse in the drawing: a click chooses, dragging a stay carries it. Fingers scroll; with them a stay is carried by the
 * buttons that the title block shows.
 */
export function useDrag({
  rows,
  field,
  time,
  carry,
  canChange,
  onChoose,
  onTouch,
}: {
  readonly rows: readonly LaidRow[]
  readonly field: RefObject<HTMLDivElement | null>
  readonly time: TimeView
  readonly carry: Carry
  readonly canChange: boolean
  readonly onChoose: (key: string | null) => void
  readonly onTouch: (key: string) => void
}) {
  const held = useRef<Held | null>(null)
  const isDragging = carry.picked !== null && held.current?.isCarried === true

  const positionOf = (event: PointerEvent) => {
    const box = field.current?.getBoundingClientRect()
    return { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) }
  }
  const down = (event: PointerEvent) => {
    held.current = null
    if (event.button !== 0 || event.pointerType === 'touch' || !canChange || carry.picked !== null) return
    const block = blockOf(rows, keyUnder(event))
    if (block?.kind !== 'stay') return
    const { x, y } = positionOf(event)
    held.current = { pointer: event.pointerId, block, startX: x, startY: y, isCarried: false }
  }
  const move = (event: PointerEvent) => {
    const of = held.current
    if (of === null || of.pointer !== event.pointerId) return
    const { x, y } = positionOf(event)
    if (!of.isCarried) {
      if (Math.hypot(x - of.startX, y - of.startY) < SLACK) return
      of.isCarried = true
      field.current?.setPointerCapture(event.pointerId)
      onTouch(of.block.key)
      carry.take(of.block.key, of.block.stay)
      return
    }
    scrollAtEdges(time, event)
    const bay = bayUnder(rows, y) ?? of.block.stay.bayId
    carry.putAt(bay, Math.round((x - of.startX) / time.scale.perDay))
  }
  const up = (event: PointerEvent) => {
    const of = held.current
    held.current = null
    // Not dropped while what comes of it is not known: it then stays in the air, with buttons for both.
    if (of?.isCarried === true) return void carry.drop()
    const key = keyUnder(event)
    if (event.button !== 0) return
    onChoose(key)
    if (key !== null) onTouch(key)
  }
  const { cancel } = carry
  const lose = () => {
    if (held.current?.isCarried === true) cancel()
    held.current = null
  }
  useEscape(isDragging, () => {
    held.current = null
    cancel()
  })

  const click = (event: PointerEvent) => {
    const key = keyUnder(event)
    if (event.button !== 0 || key === null) return
    onChoose(key)
    onTouch(key)
  }
  return {
    ofField: { onPointerDown: down, onPointerMove: move, onPointerUp: up, onPointerCancel: lose },
    ofNames: { onPointerUp: click },
  }
}

const keyUnder = (event: PointerEvent): string | null =>
  event.target instanceof Element
    ? (event.target.closest('[data-key]')?.getAttribute('data-key') ?? null)
    : null

function blockOf(rows: readonly LaidRow[], key: string | null) {
  const here = key === null ? null : findBlock(rows, key)
  return here === null ? undefined : blockAt(rows, here)?.block
}

const bayUnder = (rows: readonly LaidRow[], y: number) => {
  const laid = rows.find((row) => y >= row.y && y < row.y + row.height)
  return laid?.row.kind === 'bay' ? laid.row.bay.bayId : null
}

function scrollAtEdges({ scroller }: TimeView, event: PointerEvent): void {
  const element = scroller.current
  if (element === null) return
  const box = element.getBoundingClientRect()
  if (event.clientX > box.right - EDGE) element.scrollLeft += EDGE_STEP
  else if (event.clientX < box.left + NAMES + EDGE) element.scrollLeft -= EDGE_STEP
}

/** The focus may be anywhere while the mouse drags. */
function useEscape(isOn: boolean, onEscape: () => void): void {
  useEffect(() => {
    if (!isOn) return
    const listen = (event: globalThis.KeyboardEvent) => {
      if (event.key === 'Escape') onEscape()
    }
    window.addEventListener('keydown', listen)
    return () => window.removeEventListener('keydown', listen)
  }, [isOn, onEscape])
}
