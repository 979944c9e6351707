import type { Point } from '../drawing/shapes.ts'
import type { PhotoMark, PhotoMarks } from './photo-marks.ts'

/** A part of a photo, in shares of the whole. */
interface PhotoPart {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/**
 * The marks as shares of a part of their photo; those of which nothing lies in it are left out. A mark that the edge cuts keeps its
 * shape, so that points may lie outside 0 to 1.
 */
export function marksInCrop(marks: PhotoMarks, crop: PhotoPart | null): PhotoMarks {
  if (crop === null) return marks
  return marks.map((mark) => movedInto(mark, crop)).filter(isSeen)
}

function movedInto(mark: PhotoMark, { left, top, width, height }: PhotoPart): PhotoMark {
  const move = ({ x, y }: Point): Point => ({ x: (x - left) / width, y: (y - top) / height })
  return mark.kind === 'line'
    ? { ...mark, points: mark.points.map(move) }
    : { ...mark, from: move(mark.from), to: move(mark.to) }
}

/** Whether any of a mark's line lies within the picture from 0 to 1. */
function isSeen(mark: PhotoMark): boolean {
  switch (mark.kind) {
    case 'arrow':
      return meetsPicture(mark.from, mark.to)
    case 'circle':
      return outlineMeetsPicture(mark.from, mark.to)
    case 'line':
      return mark.points.some(
        (point, index) => index > 0 && meetsPicture(mark.points[index - 1] ?? point, point),
      )
  }
}

/** A straight line against the unit square, cut edge by edge (Liang and Barsky 1984). */
function meetsPicture(a: Point, b: Point): boolean {
  const dx = b.x - a.x
  const dy = b.y - a.y
  let enters = 0
  let leaves = 1
  for (const [towards, room] of [
    [-dx, a.x],
    [dx, 1 - a.x],
    [-dy, a.y],
    [dy, 1 - a.y],
  ] as const) {
    if (towards === 0) {
      if (room < 0) return false
      continue
    }
    if (towards < 0) enters = Math.max(enters, room / towards)
    else leaves = Math.min(leaves, room / towards)
  }
  return enters <= leaves
}

/** An ellipse's outline: scaled to a circle of radius 1 around 0, the picture has points both inside and outside it. */
function outlineMeetsPicture(from: Point, to: Point): boolean {
  const reach = (a: number, b: number) => {
    const radius = Math.abs(b - a) / 2
    const centre = (a + b) / 2
    const [low, high] = [-centre / radius, (1 - centre) / radius]
    const nearest = low > 0 ? low : high < 0 ? high : 0
    return { nearest, farthest: Math.max(Math.abs(low), Math.abs(high)) }
  }
  const x = reach(from.x, to.x)
  const y = reach(from.y, to.y)
  return Math.hypot(x.nearest, y.nearest) <= 1 && Math.hypot(x.farthest, y.farthest) >= 1
}
