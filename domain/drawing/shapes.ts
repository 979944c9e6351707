/**
 * What a drawing is made of, so that the screen (SVG) and the paper (PDF) draw the same thing. Lengths are units of the
 * drawing's own box: CSS pixels on a screen, points on paper. A tone is the name of one of the look's colours.
 */
export type Tone =
  | 'ink'
  | 'quiet'
  | 'line'
  | 'sheet'
  | 'steel'
  | 'primer'
  | 'coat'
  | 'sealer'
  | 'rust'
  | 'accent'
  | 'passed'

export interface PathShape {
  readonly kind: 'path'
  /** SVG path data. */
  readonly d: string
  readonly fill: Tone | null
  readonly stroke: Tone | null
  readonly width: number
  /** Lengths of dashes and gaps; empty for a solid line. */
  readonly dash: readonly number[]
}

export interface TextShape {
  readonly kind: 'text'
  readonly x: number
  /** Of the baseline. */
  readonly y: number
  readonly text: string
  readonly size: number
  readonly bold: boolean
  readonly anchor: 'start' | 'middle' | 'end'
  readonly tone: Tone
}

export type Shape = PathShape | TextShape

export interface Drawing {
  readonly width: number
  readonly height: number
  /** In drawing order: later shapes lie on earlier ones. */
  readonly shapes: readonly Shape[]
  /** What the drawing shows, for those who do not see it. */
  readonly words: string
}

export interface Point {
  readonly x: number
  readonly y: number
}

/** `x` and `y` are of its upper left corner. */
export interface Box extends Point {
  readonly width: number
  readonly height: number
}

export function filled(d: string, fill: Tone, stroke: Tone | null = null, width = 1): PathShape {
  return { kind: 'path', d, fill, stroke, width, dash: [] }
}

export function stroked(d: string, stroke: Tone, width: number, dash: readonly number[] = []): PathShape {
  return { kind: 'path', d, fill: null, stroke, width, dash }
}

export function written(
  text: string,
  { x, y }: Point,
  size: number,
  more: Partial<Pick<TextShape, 'bold' | 'anchor' | 'tone'>> = {},
): TextShape {
  return { kind: 'text', x, y, text, size, bold: false, anchor: 'start', tone: 'ink', ...more }
}

/** Path data through the points, closed or open. Empty for fewer than two points. */
export function pathThrough(points: readonly Point[], closed = false): string {
  if (points.length < 2) return ''
  const steps = points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`)
  return steps.join('') + (closed ? 'Z' : '')
}

export const boxPath = ({ x, y, width, height }: Box): string =>
  `M${short(x)} ${short(y)}h${short(width)}v${short(height)}h${short(-width)}Z`

export function circlePath({ x, y }: Point, radius: number): string {
  const [r, across] = [short(radius), short(2 * radius)]
  return `M${short(x - radius)} ${short(y)}a${r} ${r} 0 1 0 ${across} 0a${r} ${r} 0 1 0 -${across} 0Z`
}

/** A square on its corner. */
export function diamondPath({ x, y }: Point, reach: number): string {
  const [left, right, top, bottom] = [x - reach, x + reach, y - reach, y + reach].map(short)
  return `M${short(x)} ${top}L${right} ${short(y)}L${short(x)} ${bottom}L${left} ${short(y)}Z`
}

/** Hundredths of a unit are finer than any screen or printer shows. */
export function short(value: number): string {
  return String(Math.round(value * 100) / 100)
}
