import { bandSentence, type LikelyHours, rangeWords } from '../text/likely-words.ts'
import { capital, hours } from '../text/words.ts'
import { roundStep } from './round-step.ts'
import {
  diamondPath,
  type Drawing,
  filled,
  type PathShape,
  type Shape,
  short,
  stroked,
  written,
} from './shapes.ts'
import { textWidth } from './text-fit.ts'

/** What is drawn of one repair or of a whole car; person-hours. */
export interface BandRow {
  /** Null when nothing is estimated. */
  readonly agreed: number | null
  /** Whether its payers have accepted that; until then it is what the workshop proposes. */
  readonly isAccepted: boolean
  readonly band: LikelyHours | null
  /** What was said before it was opened, where that is not what is said now. */
  readonly first: LikelyHours | null
  /** What it took, once it is finished. */
  readonly took: number | null
}

export interface BandOptions {
  readonly width: number
  /** Hours that the full width stands for: the same for all rows of a list. */
  readonly scale: number
  /** Size of the words; the marks are scaled with it. {@link TEXT} unless said. */
  readonly textSize?: number
}

/**
 * Hours on a line from 0: the band from 50 to 80 % as a hatched bar with a heavy end at the half, the agreed figure as a
 * mark from above, the first band as a dashed bracket below, what it took as a diamond.
 */
export function drawHoursBand(row: BandRow, options: BandOptions): Drawing {
  const plan = planOf(row, options)
  return {
    width: plan.width,
    height: plan.height,
    shapes: [
      ...lineShapes(plan),
      ...(row.first === null ? [] : firstShapes(plan, row.first)),
      ...(row.band === null ? [] : bandShapes(plan, row.band, row.agreed)),
      ...(row.agreed === null ? [] : agreedShapes(plan, row.agreed, agreedWord(row))),
      ...(row.took === null ? [] : tookShapes(plan, row.took, row.agreed)),
    ],
    words: bandRowWords(row),
  }
}

/** 'Agreed 38 h. Half the time 41 h or less; four times in five 52 h or less.' */
export function bandRowWords(row: BandRow): string {
  const { agreed, band, first, took } = row
  return [
    agreed === null ? 'Nothing is estimated.' : `${capital(agreedWord(row))} ${hours(agreed)}.`,
    ...(band === null ? [] : [bandSentence(band)]),
    ...(first === null ? [] : [`Before it was opened: ${rangeWords(first)}.`]),
    ...(took === null ? [] : [`It took ${hours(took)}.`]),
  ].join(' ')
}

/** What the estimated figure is called. */
export const agreedWord = ({ isAccepted }: Pick<BandRow, 'isAccepted'>): string =>
  isAccepted ? 'agreed' : 'proposed'

const TEXT = 12.5

/** Right of the scale there is always room for '1,212 to 1,388 h'. */
const LABEL_ROOM = 108

/** The common scale above a list of bands, with a figure at every stroke. */
export function drawHoursRuler({ width, scale, textSize = TEXT }: BandOptions): Drawing {
  const unit = textSize / TEXT
  const x = scaleOf({ width, scale, textSize })
  const foot = 22 * unit
  const step = strokeStep(scale, (x(scale) - x(0)) / (ROOM_A_STROKE * unit))
  const strokes = Array.from({ length: Math.floor(scale / step + 1e-9) + 1 }, (_, index) => index * step)
  const way = strokes.map((value) => `M${short(x(value))} ${short(foot - 6 * unit)}V${short(foot)}`).join('')
  return {
    width,
    height: foot + unit,
    shapes: [
      stroked(`${way}M${short(x(0))} ${short(foot)}H${short(x(scale))}`, 'line', unit),
      ...strokes.map((value) =>
        written(
          value === strokes.at(-1) ? hours(value, 0) : String(value),
          { x: x(value), y: foot - 9 * unit },
          textSize * 0.94,
          { anchor: value === 0 ? 'start' : 'middle', tone: 'quiet' },
        ),
      ),
    ],
    words: `A scale from 0 to ${hours(scale, 0)}.`,
  }
}

const ROOM_A_STROKE = 54

/** Round hours, whole ones, at most so many strokes. */
const strokeStep = (scale: number, most: number): number => roundStep(Math.max(1, scale / Math.max(1, most)))

function scaleOf({ width, scale, textSize = TEXT }: BandOptions): (value: number) => number {
  const unit = textSize / TEXT
  const full = Math.max(scale, 0.1)
  const [start, end] = [4 * unit, width - LABEL_ROOM * unit]
  return (value) => start + (end - start) * Math.min(1, Math.max(0, value) / full)
}

interface Plan {
  readonly width: number
  readonly height: number
  readonly unit: number
  readonly size: number
  /** Upper and lower edge of the band, and the line that it lies on. */
  readonly top: number
  readonly foot: number
  /** Where the scale ends. */
  readonly end: number
  readonly x: (value: number) => number
}

function planOf({ first }: BandRow, { width, scale, textSize = TEXT }: BandOptions): Plan {
  const unit = textSize / TEXT
  const top = 20 * unit
  const foot = top + 15 * unit
  const x = scaleOf({ width, scale, textSize })
  return {
    width,
    height: foot + (first === null ? 5 : 23) * unit,
    unit,
    size: textSize,
    top,
    foot,
    end: width - LABEL_ROOM * unit,
    x,
  }
}

/** From 0, where it has a stroke, to the end of the scale. */
function lineShapes({ x, foot, end, unit }: Plan): readonly Shape[] {
  const [from, to, low, high] = [x(0), end, foot + 3 * unit, foot - 5 * unit].map(short)
  return [stroked(`M${from} ${high}V${low}M${from} ${short(foot)}H${to}`, 'line', unit)]
}

function bandShapes(plan: Plan, { p50, p80 }: LikelyHours, agreed: number | null): readonly Shape[] {
  const { x, top, foot, unit } = plan
  const from = x(p50)
  const to = Math.max(x(p80), from + 3 * unit)
  const box = `M${short(from)} ${short(top)}H${short(to)}V${short(foot)}H${short(from)}Z`
  return [
    filled(box, 'sheet'),
    hatch(plan, from, to),
    stroked(box, 'accent', 1.2 * unit),
    stroked(`M${short(from)} ${short(top - 2 * unit)}V${short(foot + 2 * unit)}`, 'accent', 3 * unit),
    afterMark(plan, rangeWords({ p50, p80 }), to, agreed),
  ]
}

/** Lines from lower left to upper right, cut off at the ends of the box. */
function hatch({ top, foot, unit }: Plan, from: number, to: number): PathShape {
  const high = foot - top
  const lines: string[] = []
  for (let start = from - high + 4 * unit; start < to; start += 5 * unit) {
    const [left, right] = [Math.max(start, from), Math.min(start + high, to)]
    if (right <= left) continue
    lines.push(
      `M${short(left)} ${short(foot - (left - start))}L${short(right)} ${short(foot - (right - start))}`,
    )
  }
  return stroked(lines.join(''), 'accent', 0.9 * unit)
}

/** A mark that points down on the line from above, with its figure. */
function agreedShapes(plan: Plan, agreed: number, word: string): readonly Shape[] {
  const { x, top, foot, unit } = plan
  const at = x(agreed)
  const [left, right, high] = [at - 4 * unit, at + 4 * unit, top - 5 * unit].map(short)
  return [
    filled(`M${left} ${high}H${right}L${short(at)} ${short(top + unit)}Z`, 'ink'),
    stroked(`M${short(at)} ${short(top)}V${short(foot + 2 * unit)}`, 'ink', 1.4 * unit),
    labelAt(plan, `${word} ${hours(agreed)}`, at, top - 8 * unit),
  ]
}

function firstShapes(plan: Plan, first: LikelyHours): readonly Shape[] {
  const { x, foot, unit, size } = plan
  const [from, to] = [x(first.p50), Math.max(x(first.p80), x(first.p50) + 3 * unit)]
  const [high, low] = [foot + 3 * unit, foot + 8 * unit].map(short)
  const bracket = `M${short(from)} ${high}V${low}H${short(to)}V${high}`
  return [
    stroked(bracket, 'quiet', 1.1 * unit, [3 * unit, 2.4 * unit]),
    labelAt(plan, `first ${rangeWords(first)}`, (from + to) / 2, foot + 11 * unit + size * 0.82),
  ]
}

function tookShapes(plan: Plan, took: number, agreed: number | null): readonly Shape[] {
  const { x, top, foot, unit } = plan
  const at = x(took)
  const middle = (top + foot) / 2
  const r = 6 * unit
  return [
    filled(diamondPath({ x: at, y: middle }, r), 'passed', 'ink', unit),
    besideDiamond(plan, `took ${hours(took)}`, { at, r }, agreed),
  ]
}

/** After the diamond; before it where the agreed mark would stand in the figure and there is room. */
function besideDiamond(
  plan: Plan,
  text: string,
  { at, r }: { readonly at: number; readonly r: number },
  agreed: number | null,
): Shape {
  const { x, size, foot, unit } = plan
  const length = textWidth(text, size, true)
  const [from, to] = [at + r + 6 * unit, at - r - 6 * unit]
  const isCrossed = agreed !== null && x(agreed) > at + r && x(agreed) < from + length
  if (!isCrossed || to - length < x(0) + 4 * unit) return afterMark(plan, text, at + r, agreed)
  return written(text, { x: to, y: foot - 3 * unit }, size, { anchor: 'end', bold: true })
}

/** The figure that counts, after what it belongs to, and after the agreed mark where that would stand in it. */
function afterMark({ x, size, foot, unit }: Plan, text: string, end: number, agreed: number | null): Shape {
  const from = end + 6 * unit
  const mark = agreed === null ? from : x(agreed)
  const isCrossed = mark > end && mark < from + textWidth(text, size, true)
  return written(text, { x: isCrossed ? mark + 6 * unit : from, y: foot - 3 * unit }, size, { bold: true })
}

/** Centred on its mark, moved in where it would run over an end. */
function labelAt({ size, width, unit }: Plan, text: string, at: number, y: number): Shape {
  const half = textWidth(text, size) / 2
  const x = Math.min(Math.max(at, half + 2 * unit), Math.max(half, width - half - 2 * unit))
  return written(text, { x, y }, size, { anchor: 'middle', tone: 'quiet' })
}
