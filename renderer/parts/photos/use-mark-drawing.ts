import { useRef, useState, type KeyboardEvent, type PointerEvent } from 'react'
import type { Point } from '../../../domain/drawing/shapes.ts'
import {
  isFull,
  markFromStroke,
  markInMiddle,
  movedBy,
  sizedBy,
  type MarkTool,
} from '../../../domain/photo-marks/edit-marks.ts'
import type { PhotoMark, PhotoMarks } from '../../../domain/photo-marks/photo-marks.ts'
import { arrowStep } from '../drawing/arrow-step.ts'

/** Shares of the photo for each press of an arrow key. */
const STEP = 0.01

/** Drawing on a photo with finger, pen or mouse, and the same by keyboard; every step can be undone. */
export function useMarkDrawing(given: PhotoMarks) {
  const [steps, setSteps] = useState<readonly PhotoMarks[]>([given])
  const [tool, setTool] = useState<MarkTool>('arrow')
  const [chosen, setChosen] = useState<number | null>(null)
  const [drawn, setDrawn] = useState<PhotoMark | null>(null)
  const stroke = useRef<{ readonly pointer: number; points: readonly Point[] } | null>(null)
  const marks = steps.at(-1) ?? given

  const add = (mark: PhotoMark) => {
    setSteps([...steps, [...marks, mark]])
    setChosen(marks.length)
  }
  const change = (index: number, mark: PhotoMark) => setSteps([...steps, marks.with(index, mark)])
  const takeOff = (index: number) => {
    setSteps([...steps, marks.toSpliced(index, 1)])
    setChosen(null)
  }

  const begin = (event: PointerEvent<HTMLElement>) => {
    // A palm that rests on the screen is another pointer.
    if (!event.isPrimary || event.button !== 0 || isFull(marks)) return
    event.currentTarget.setPointerCapture(event.pointerId)
    stroke.current = { pointer: event.pointerId, points: [shareOf(event)] }
    setChosen(null)
  }
  const draw = (event: PointerEvent<HTMLElement>) => {
    const held = stroke.current
    if (held === null || held.pointer !== event.pointerId) return
    held.points = [...held.points, shareOf(event)]
    setDrawn(markFromStroke(tool, held.points))
  }
  const end = (event: PointerEvent<HTMLElement>) => {
    if (stroke.current?.pointer !== event.pointerId) return
    const mark = markFromStroke(tool, [...stroke.current.points, shareOf(event)])
    stroke.current = null
    setDrawn(null)
    if (mark !== null) add(mark)
  }
  const cancel = () => {
    stroke.current = null
    setDrawn(null)
  }
  const press = (index: number) => (event: KeyboardEvent<HTMLElement>) => {
    const mark = marks[index]
    const step = arrowStep(event.key, STEP)
    if (mark === undefined) return
    if (step !== null) {
      event.preventDefault()
      change(index, event.shiftKey ? sizedBy(mark, step) : movedBy(mark, step))
    }
    if (event.key === 'Delete' || event.key === 'Backspace') {
      event.preventDefault()
      takeOff(index)
    }
  }
  return {
    marks,
    /** With the one that is being drawn. */
    shown: drawn === null ? marks : [...marks, drawn],
    tool,
    setTool,
    chosen,
    setChosen,
    takeOff,
    addInMiddle: (kind: Exclude<MarkTool, 'line'>) => add(markInMiddle(kind)),
    /** Null when nothing was done yet. */
    undo:
      steps.length < 2
        ? null
        : () => {
            setSteps(steps.slice(0, -1))
            setChosen(null)
          },
    ofSheet: { onPointerDown: begin, onPointerMove: draw, onPointerUp: end, onPointerCancel: cancel },
    ofMark: press,
  }
}

function shareOf({ currentTarget, clientX, clientY }: PointerEvent<HTMLElement>): Point {
  const { left, top, width, height } = currentTarget.getBoundingClientRect()
  return { x: (clientX - left) / width, y: (clientY - top) / height }
}
