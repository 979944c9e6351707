import { useRef, type KeyboardEvent, type PointerEvent } from 'react'
import type { BayId } from '../../domain/ids.ts'
import { type BayPlace, kept } from '../parts/drawing/bay-place.ts'
import { type PlacedBay, SNAP, snapped } from './bay-places.ts'
import { arrowStep } from '../parts/drawing/arrow-step.ts'

interface Drag {
  readonly pointer: number
  readonly id: BayId
  readonly what: 'place' | 'size'
  readonly from: BayPlace
  /** Where it was taken hold of, in tenths of a metre. */
  readonly at: { readonly x: number; readonly y: number }
}

/** Dragging bays on the plan, and the same by the arrow keys; with Shift held these change its size. */
export function useBayDrag(onChoose: (id: BayId) => void, onPlace: (id: BayId, place: BayPlace) => void) {
  const ref = useRef<SVGSVGElement>(null)
  const drag = useRef<Drag | null>(null)

  const onFloor = (event: PointerEvent) => {
    const matrix = ref.current?.getScreenCTM()
    if (!matrix) return { x: 0, y: 0 }
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse())
    return { x, y }
  }
  const take =
    ({ bay, place }: PlacedBay, what: Drag['what']) =>
    (event: PointerEvent<SVGElement>) => {
      onChoose(bay.id)
      event.currentTarget.setPointerCapture(event.pointerId)
      drag.current = { pointer: event.pointerId, id: bay.id, what, from: place, at: onFloor(event) }
    }
  const move = (event: PointerEvent<SVGElement>) => {
    const held = drag.current
    if (held === null || held.pointer !== event.pointerId) return
    const { x, y } = onFloor(event)
    const dx = snapped(x - held.at.x)
    const dy = snapped(y - held.at.y)
    const { from } = held
    onPlace(
      held.id,
      kept(
        held.what === 'place'
          ? { ...from, x: from.x + dx, y: from.y + dy }
          : { ...from, width: from.width + dx, height: from.height + dy },
      ),
    )
  }
  const drop = () => {
    drag.current = null
  }
  const press =
    ({ bay, place }: PlacedBay) =>
    (event: KeyboardEvent<SVGElement>) => {
      if (event.key === 'Enter' || event.key === ' ') {
        event.preventDefault()
        onChoose(bay.id)
        return
      }
      const step = arrowStep(event.key, SNAP)
      if (step === null) return
      event.preventDefault()
      onChoose(bay.id)
      onPlace(
        bay.id,
        kept(
          event.shiftKey
            ? { ...place, width: place.width + step.x, height: place.height + step.y }
            : { ...place, x: place.x + step.x, y: place.y + step.y },
        ),
      )
    }

  const handlers = { onPointerMove: move, onPointerUp: drop, onPointerCancel: drop }
  return {
    ref,
    of: (placed: PlacedBay) => ({
      ...handlers,
      onPointerDown: take(placed, 'place'),
      onKeyDown: press(placed),
    }),
    corner: (placed: PlacedBay) => ({ ...handlers, onPointerDown: take(placed, 'size') }),
  }
}
