import type { Point } from '../drawing/shapes.ts'
import {
  MOST_LINE_POINTS,
  MOST_MARKS,
  type PhotoMark,
  photoMarkSchema,
  type PhotoMarks,
} from './photo-marks.ts'

export type MarkTool = PhotoMark['kind']

/** What a finger, pen or mouse drew from its first point to its last, as shares of the photo; null for a mere touch. */
export function markFromStroke(tool: MarkTool, stroke: readonly Point[]): PhotoMark | null {
  const points = stroke.map(inside)
  const from = points[0]
  const to = points.at(-1)
  if (from === undefined || to === undefined) return null
  const mark: PhotoMark =
    tool === 'line' ? { kind: 'line', points: thinned(points) } : { kind: tool, from, to }
  return photoMarkSchema.safeParse(mark).success ? mark : null
}

/** A mark in the middle of the photo, for those who draw by keyboard: from there it is moved and sized. */
export function markInMiddle(tool: Exclude<MarkTool, 'line'>): PhotoMark {
  return tool === 'arrow'
    ? { kind: 'arrow', from: { x: 0.35, y: 0.65 }, to: { x: 0.5, y: 0.5 } }
    : { kind: 'circle', from: { x: 0.4, y: 0.4 }, to: { x: 0.6, y: 0.6 } }
}

/** As far as the photo goes, with its shape kept. */
export function movedBy(mark: PhotoMark, by: Point): PhotoMark {
  const points = mark.kind === 'line' ? mark.points : [mark.from, mark.to]
  const within = (wanted: number, at: readonly number[]) =>
    Math.min(1 - Math.max(...at), Math.max(-Math.min(...at), wanted))
  const x = within(
    by.x,
    points.map((point) => point.x),
  )
  const y = within(
    by.y,
    points.map((point) => point.y),
  )
  const move = (point: Point) => inside({ x: point.x + x, y: point.y + y })
  return mark.kind === 'line'
    ? { ...mark, points: mark.points.map(move) }
    : { ...mark, from: move(mark.from), to: move(mark.to) }
}

/** The arrow's tip, or a corner of the circle's box, moved; the mark as it was where it would grow too small. A line stays. */
export function sizedBy(mark: PhotoMark, by: Point): PhotoMark {
  if (mark.kind === 'line') return mark
  const sized = { ...mark, to: inside({ x: mark.to.x + by.x, y: mark.to.y + by.y }) }
  return photoMarkSchema.safeParse(sized).success ? sized : mark
}

export const isFull = (marks: PhotoMarks): boolean => marks.length >= MOST_MARKS

/** Ten-thousandths of a photo are finer than any finger. */
const inside = ({ x, y }: Point): Point => ({ x: share(x), y: share(y) })
const share = (value: number): number => Math.round(Math.min(1, Math.max(0, value)) * 10_000) / 10_000

/** A line's points without those that lie within half a hundredth of the line through the others (Douglas and Peucker 1973). */
function thinned(stroke: readonly Point[]): readonly Point[] {
  const points = sampled(stroke)
  for (let tolerance = 0.005; ; tolerance *= 1.5) {
    const fewer = withoutNear(points, tolerance)
    if (fewer.length <= MOST_LINE_POINTS) return fewer
  }
}

/** More points than a hand can mean; the thinning's work goes by their square. */
const MOST_SAMPLED = 200

function sampled(stroke: readonly Point[]): readonly Point[] {
  if (stroke.length <= MOST_SAMPLED) return stroke
  const step = (stroke.length - 1) / (MOST_SAMPLED - 1)
  return Array.from({ length: MOST_SAMPLED }, (_, index) => stroke[Math.round(index * step)]).filter(
    (point) => point !== undefined,
  )
}

function withoutNear(points: readonly Point[], tolerance: number): readonly Point[] {
  const first = points[0]
  const last = points.at(-1)
  if (points.length < 3 || first === undefined || last === undefined) return points
  const distances = points.map((point) => distanceToLine(point, first, last))
  const farthest = Math.max(...distances)
  if (farthest <= tolerance) return [first, last]
  const at = distances.indexOf(farthest)
  return [
    ...withoutNear(points.slice(0, at + 1), tolerance).slice(0, -1),
    ...withoutNear(points.slice(at), tolerance),
  ]
}

function distanceToLine(point: Point, a: Point, b: Point): number {
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  if (length === 0) return Math.hypot(point.x - a.x, point.y - a.y)
  return Math.abs((b.x - a.x) * (a.y - point.y) - (a.x - point.x) * (b.y - a.y)) / length
}
