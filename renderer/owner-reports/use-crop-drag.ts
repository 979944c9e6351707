import { useRef, type KeyboardEvent, type PointerEvent } from 'react'
import type { Crop } from '../../domain/report/report-choices.ts'
import { type CropEdge, moveCrop, stretchCrop } from './crops.ts'
import { arrowStep } from '../parts/drawing/arrow-step.ts'

interface Drag {
  readonly pointer: number
  /** Those that go along; none moves the whole frame. */
  readonly edges: readonly CropEdge[]
  readonly from: Crop
  readonly x: number
  readonly y: number
}

/** A hundredth of the photo for each press of an arrow key. */
const STEP = 0.01

/** Dragging the frame and its edges over the photo, and the same by the arrow keys; with Shift held these change its size. */
export function useCropDrag(crop: Crop, onChange: (crop: Crop) => void) {
  const photo = useRef<HTMLDivElement>(null)
  const drag = useRef<Drag | null>(null)

  const take = (edges: readonly CropEdge[]) => (event: PointerEvent<HTMLElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId)
    drag.current = { pointer: event.pointerId, edges, from: crop, x: event.clientX, y: event.clientY }
  }
  const move = (event: PointerEvent<HTMLElement>) => {
    const held = drag.current
    const box = photo.current?.getBoundingClientRect()
    if (held === null || held.pointer !== event.pointerId || box === undefined) return
    const dx = (event.clientX - held.x) / box.width
    const dy = (event.clientY - held.y) / box.height
    onChange(
      held.edges.length === 0 ? moveCrop(held.from, dx, dy) : stretchCrop(held.from, held.edges, dx, dy),
    )
  }
  const drop = () => {
    drag.current = null
  }
  const press = (event: KeyboardEvent<HTMLElement>) => {
    const step = arrowStep(event.key, STEP)
    if (step === null) return
    event.preventDefault()
    const { x, y } = step
    onChange(event.shiftKey ? stretchCrop(crop, ['right', 'bottom'], x, y) : moveCrop(crop, x, y))
  }
  const handlers = { onPointerMove: move, onPointerUp: drop, onPointerCancel: drop }
  return {
    photo,
    ofFrame: { ...handlers, onPointerDown: take([]), onKeyDown: press },
    ofHandle: (edges: readonly CropEdge[]) => ({ ...handlers, onPointerDown: take(edges) }),
  }
}
