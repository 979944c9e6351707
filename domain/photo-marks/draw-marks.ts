import { type Drawing, pathThrough, type Point, type Shape, short, stroked } from '../drawing/shapes.ts'
import { marksWords } from './marks-words.ts'
import type { PhotoMark, PhotoMarks } from './photo-marks.ts'

/** How a photo is shown: pixels or points of its picture, and how wide lines are as a share of its longer side. */
export interface MarkedPicture {
  readonly width: number
  readonly height: number
  readonly line: number
}

/** Line widths that read well: small pictures need heavier lines for their size. */
export const MARK_LINE = { small: 0.018, large: 0.008, print: 0.01 } as const

/** White around the line on either side, as a share of its width, so that it stands out on dark and busy ground. */
const CASING = 0.6
/** An arrow's head: length as a multiple of the line's width, and half its opening in radians (28 degrees). */
const HEAD = { length: 5, opening: (28 * Math.PI) / 180 } as const

/** Marks as lines in the accent with a white casing; the same shapes on screen and in print. Ends and corners are round. */
export function drawMarks(marks: PhotoMarks, { width, height, line }: MarkedPicture): Drawing {
  const lineWidth = line * Math.max(width, height)
  const scale = ({ x, y }: Point): Point => ({ x: x * width, y: y * height })
  return {
    width,
    height,
    shapes: marks.flatMap((mark) => cased(pathOf(mark, scale, lineWidth), lineWidth)),
    words: marksWords(marks),
  }
}

const cased = (d: string, lineWidth: number): readonly Shape[] => [
  stroked(d, 'sheet', Number(short(lineWidth * (1 + 2 * CASING)))),
  stroked(d, 'accent', Number(short(lineWidth))),
]

function pathOf(mark: PhotoMark, scale: (point: Point) => Point, lineWidth: number): string {
  switch (mark.kind) {
    case 'arrow':
      return arrowPath(scale(mark.from), scale(mark.to), lineWidth)
    case 'circle':
      return ellipsePath(scale(mark.from), scale(mark.to))
    case 'line':
      return pathThrough(mark.points.map(scale))
  }
}

function arrowPath(from: Point, to: Point, lineWidth: number): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y)
  const head = Math.min(HEAD.length * lineWidth, length * 0.7)
  const back = Math.atan2(from.y - to.y, from.x - to.x)
  const barb = (turn: number): Point => ({
    x: to.x + head * Math.cos(back + turn),
    y: to.y + head * Math.sin(back + turn),
  })
  return pathThrough([from, to]) + pathThrough([barb(HEAD.opening), to, barb(-HEAD.opening)])
}

function ellipsePath(a: Point, b: Point): string {
  const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)]
  const radii = `${short((right - left) / 2)} ${short(Math.abs(b.y - a.y) / 2)}`
  const middle = short((a.y + b.y) / 2)
  return `M${short(left)} ${middle}A${radii} 0 1 1 ${short(right)} ${middle}A${radii} 0 1 1 ${short(left)} ${middle}Z`
}
