import type { Point } from '../shapes.ts'

/**
 * One sheet of a repair in the cut: from its flange it leans to its own level and runs on to where the drawing breaks
 * it off. Lengths are the drawing's units; y points down.
 */
export interface SheetCourse {
  readonly flangeFrom: number
  readonly flangeTo: number
  readonly flangeY: number
  readonly levelY: number
  readonly end: number
}

/** What is eaten away at a place of the run, as shares of the thickness, at the upper and at the lower face. */
export interface Loss {
  readonly upper: number
  readonly lower: number
}

export interface SheetPiece {
  readonly outline: readonly Point[]
  readonly upper: readonly Point[]
  readonly lower: readonly Point[]
}

/** Centre line from the flange's edge to the break, with rounded bends; the run has a point about every `step` units. */
export function centreLine(course: SheetCourse, step: number): readonly Point[] {
  const { flangeFrom, flangeY, levelY, end } = course
  const [first, second] = bends(course)
  const start = { x: flangeFrom, y: flangeY }
  const last = { x: end, y: levelY }
  const rest = pointsBetween({ x: second.x + bendReach(course), y: levelY }, last, step)
  if (Math.abs(levelY - flangeY) < 1) return [start, ...pointsBetween({ x: first.x, y: flangeY }, last, step)]
  return [
    start,
    ...rounded(start, first, second, bendReach(course)),
    ...rounded(first, second, last, bendReach(course)),
    ...rest,
  ]
}

/** Where the sheet has come to its level. */
export function runStart(course: SheetCourse): number {
  return bends(course)[1].x + bendReach(course)
}

/** The two edges of the metal round a centre line, and the outline with its broken-off end. */
export function sheetPiece(
  line: readonly Point[],
  thickness: number,
  lossAt: (x: number) => Loss,
  isBrokenOff: boolean,
): SheetPiece {
  const normals = line.map((_, index) => normalAt(line, index))
  const edge = (side: -1 | 1) =>
    line.map(({ x, y }, index) => {
      const loss = lossAt(x)
      const half = thickness * (0.5 - (side < 0 ? loss.upper : loss.lower)) * side
      const normal = normals[index] ?? { x: 0, y: 1 }
      return { x: x + normal.x * half, y: y + normal.y * half }
    })
  const upper = edge(-1)
  const lower = edge(1)
  const end = isBrokenOff ? breakLine(upper.at(-1), lower.at(-1)) : []
  return { outline: [...upper, ...end, ...lower.toReversed()], upper, lower }
}

/** The points moved sideways: negative away from the lower face, positive away from the upper one. */
export function shifted(line: readonly Point[], by: number): readonly Point[] {
  return line.map(({ x, y }, index) => {
    const normal = normalAt(line, index)
    return { x: x + normal.x * by, y: y + normal.y * by }
  })
}

/** Hatching at 45 degrees inside an outline: pairs of ends. `lean` 1 rises to the right, -1 to the left. */
export function hatchLines(
  outline: readonly Point[],
  spacing: number,
  lean: 1 | -1,
): readonly (readonly [Point, Point])[] {
  const along = ({ x, y }: Point): number => x + lean * y
  const offsets = outline.map(along)
  const first = Math.ceil(Math.min(...offsets) / spacing)
  const last = Math.floor(Math.max(...offsets) / spacing)
  const lines: (readonly [Point, Point])[] = []
  for (let count = first; count <= last; count += 1) {
    const crossings = crossingsAt(outline, along, (count + 0.5) * spacing).toSorted((a, b) => a.x - b.x)
    for (let pair = 0; pair + 1 < crossings.length; pair += 2) {
      const [from, to] = [crossings[pair], crossings[pair + 1]]
      if (from && to) lines.push([from, to])
    }
  }
  return lines
}

/** Leaning part: 0.55 to the side for each unit of height, never steeper than a press would draw it. */
function bends({ flangeTo, flangeY, levelY }: SheetCourse): readonly [Point, Point] {
  const lean = 8 + Math.abs(levelY - flangeY) * 0.55
  return [
    { x: flangeTo, y: flangeY },
    { x: flangeTo + lean, y: levelY },
  ]
}

function bendReach({ flangeY, levelY }: SheetCourse): number {
  return Math.min(9, Math.abs(levelY - flangeY) * 0.4)
}

const BEND_STEPS = 5

/** A bend at `corner`, from `reach` before it to `reach` after it. */
function rounded(before: Point, corner: Point, after: Point, reach: number): readonly Point[] {
  const from = towards(corner, before, reach)
  const to = towards(corner, after, reach)
  return Array.from({ length: BEND_STEPS + 1 }, (_, step) => {
    const t = step / BEND_STEPS
    const [a, b, c] = [(1 - t) ** 2, 2 * t * (1 - t), t ** 2]
    return { x: a * from.x + b * corner.x + c * to.x, y: a * from.y + b * corner.y + c * to.y }
  })
}

function towards(from: Point, to: Point, by: number): Point {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1
  const share = Math.min(by, length / 2) / length
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }
}

function pointsBetween(from: Point, to: Point, step: number): readonly Point[] {
  const count = Math.max(1, Math.round((to.x - from.x) / step))
  return Array.from({ length: count + 1 }, (_, index) => ({
    x: from.x + ((to.x - from.x) * index) / count,
    y: from.y + ((to.y - from.y) * index) / count,
  }))
}

function normalAt(line: readonly Point[], index: number): Point {
  const before = line[Math.max(0, index - 1)]
  const after = line[Math.min(line.length - 1, index + 1)]
  if (!before || !after) return { x: 0, y: 1 }
  const length = Math.hypot(after.x - before.x, after.y - before.y) || 1
  return { x: -(after.y - before.y) / length, y: (after.x - before.x) / length }
}

/** The freehand line that breaks a part off in a drawing. */
function breakLine(upper: Point | undefined, lower: Point | undefined): readonly Point[] {
  if (!upper || !lower) return []
  const sway = Math.min(2.4, (lower.y - upper.y) * 0.35)
  return [1, 2, 3, 4, 5, 6, 7].map((step) => {
    const t = step / 8
    return { x: upper.x + sway * Math.sin(2 * Math.PI * t), y: upper.y + (lower.y - upper.y) * t }
  })
}

function crossingsAt(
  outline: readonly Point[],
  along: (point: Point) => number,
  offset: number,
): readonly Point[] {
  return outline.flatMap((from, index) => {
    const to = outline[(index + 1) % outline.length]
    if (!to) return []
    const [a, b] = [along(from) - offset, along(to) - offset]
    if (a < 0 === b < 0) return []
    const share = a / (a - b)
    return [{ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }]
  })
}
