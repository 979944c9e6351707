import { fixed, hours, plural } from '../text/words.ts'
import type { CurveWeek, VarianceFiguresView } from '../views/variance-shapes.ts'
import { roundStep } from './round-step.ts'
import {
  circlePath,
  type Drawing,
  filled,
  pathThrough,
  type Point,
  type Shape,
  short,
  stroked,
  type Tone,
  written,
} from './shapes.ts'
import { textWidth } from './text-fit.ts'

export interface HoursCurves {
  readonly weeks: readonly CurveWeek[]
  readonly total: VarianceFiguresView
}

/**
 * Hours of one visit cumulated over its weeks: planned as a dashed line, earned as a strong one, spent as a line with dots,
 * each named where it ends; authorised and expected at completion as levels. Null without a week.
 *
 * @param width units of the drawing; labels need 320 or more
 */
export function drawHoursCurves({ weeks, total }: HoursCurves, width: number): Drawing | null {
  if (weeks.length === 0) return null
  const frame = frameOf(weeks, total, width)
  const lines = CURVES.map((curve) => ({ ...curve, points: pointsOf(weeks, curve.of, frame) }))
  return {
    width,
    height: HEIGHT,
    shapes: [
      ...gridShapes(frame),
      ...weekShapes(weeks, frame),
      ...levelShapes(total, frame),
      ...lines.flatMap(({ points, tone, thickness, dash, hasDots }) => [
        stroked(pathThrough([frame.origin, ...points]), tone, thickness, dash),
        ...(hasDots ? points.map((point) => filled(circlePath(point, DOT), tone)) : []),
      ]),
      ...levelNames(total, frame),
      ...endNames(lines),
    ],
    words: curveWords(weeks, total),
  }
}

const HEIGHT = 300
const TOP = 14
const BOTTOM = 34
const LEFT = 52
const RIGHT = 92
const TEXT = 13
const MOST_GRID_LINES = 5
/** Radius of a dot. */
const DOT = 2.75

interface Frame {
  readonly x: (week: number) => number
  readonly y: (value: number) => number
  readonly origin: Point
  readonly right: number
  readonly step: number
  readonly top: number
  readonly weeks: number
}

interface Curve {
  readonly name: string
  readonly of: (week: CurveWeek) => number | null
  readonly tone: Tone
  readonly thickness: number
  readonly dash: readonly number[]
  readonly hasDots: boolean
}

const CURVES: readonly Curve[] = [
  { name: 'planned', of: (w) => w.planned, tone: 'quiet', thickness: 1.5, dash: [5, 4], hasDots: false },
  { name: 'earned', of: (w) => w.earned, tone: 'passed', thickness: 3, dash: [], hasDots: false },
  { name: 'spent', of: (w) => w.spent, tone: 'accent', thickness: 1.75, dash: [], hasDots: true },
]

function frameOf(weeks: readonly CurveWeek[], total: VarianceFiguresView, width: number): Frame {
  const largest = Math.max(
    1,
    total.hours.authorised,
    total.expected,
    ...weeks.flatMap((week) => [week.planned, week.earned ?? 0, week.spent ?? 0]),
  )
  const step = roundStep(largest / MOST_GRID_LINES)
  const top = Math.ceil(largest / step) * step
  const right = width - RIGHT
  const x = (week: number): number => LEFT + ((right - LEFT) * week) / weeks.length
  const y = (value: number): number => HEIGHT - BOTTOM - ((HEIGHT - BOTTOM - TOP) * value) / top
  return { x, y, origin: { x: x(0), y: y(0) }, right, step, top, weeks: weeks.length }
}

/** Each week's value stands at its end; a week to come has none. */
const pointsOf = (weeks: readonly CurveWeek[], of: Curve['of'], { x, y }: Frame): readonly Point[] =>
  weeks.flatMap((week, index) => {
    const value = of(week)
    return value === null ? [] : [{ x: x(index + 1), y: y(value) }]
  })

function gridShapes({ y, right, step, top }: Frame): readonly Shape[] {
  const values = Array.from({ length: Math.round(top / step) + 1 }, (_, index) => index * step)
  return values.flatMap((value) => [
    stroked(`M${LEFT} ${short(y(value))}H${short(right)}`, 'line', value === 0 ? 1.5 : 0.5),
    written(value === 0 ? '0 h' : fixed(value, step < 1 ? 1 : 0), { x: LEFT - 8, y: y(value) + 4 }, TEXT, {
      anchor: 'end',
      tone: 'quiet',
    }),
  ])
}

/** As many weeks are named as there is room for. */
function weekShapes(weeks: readonly CurveWeek[], { x }: Frame): readonly Shape[] {
  const widest = Math.max(...weeks.map(({ words }) => textWidth(words, TEXT)))
  const every = Math.max(1, Math.ceil((widest + 14) / (x(1) - x(0))))
  return weeks.flatMap(({ words }, index) => {
    const at = x(index + 1)
    const tick = stroked(`M${short(at)} ${HEIGHT - BOTTOM}v4`, 'line', 1)
    return (weeks.length - 1 - index) % every === 0
      ? [tick, written(words, { x: at, y: HEIGHT - BOTTOM + 18 }, TEXT, { anchor: 'end', tone: 'quiet' })]
      : [tick]
  })
}

/** Authorised as a level all along, expected at completion as a short one at the end, with what lies between them. */
function levelShapes(
  { hours: { authorised }, expected }: VarianceFiguresView,
  frame: Frame,
): readonly Shape[] {
  const { y, right } = frame
  const [from, to] = [y(authorised), y(expected)]
  const between = `M${short(right - 10)} ${short(from)}H${short(right)}V${short(to)}H${short(right - 10)}Z`
  return [
    ...(Math.abs(from - to) < 1 ? [] : [filled(between, expected > authorised ? 'accent' : 'steel')]),
    stroked(`M${LEFT} ${short(from)}H${short(right)}`, 'ink', 1.25),
    stroked(`M${short(right - 14)} ${short(to)}H${short(right)}`, 'ink', 2.5),
  ]
}

interface Line extends Curve {
  readonly points: readonly Point[]
}

/** Each curve is named beside its end; names that would lie on each other are set apart. */
function endNames(lines: readonly Line[]): readonly Shape[] {
  const wanted = lines
    .flatMap(({ name, tone, points }) => {
      const end = points.at(-1)
      return end === undefined ? [] : [{ name, tone, x: end.x + 8, y: end.y }]
    })
    .toSorted((a, b) => a.y - b.y)
  let lowest = TOP
  return wanted.map(({ name, tone, x, y }, index) => {
    const room = LOWEST_NAME - (wanted.length - 1 - index) * NAME_STEP
    const placed = Math.min(room, Math.max(y + 4, lowest))
    lowest = placed + NAME_STEP
    return written(name, { x, y: placed }, TEXT, { tone, bold: true })
  })
}

const NAME_STEP = TEXT + 2
const LOWEST_NAME = HEIGHT - BOTTOM + 6

/** The levels' names: authorised above its line on the left, expected at its end. */
function levelNames(
  { hours: { authorised }, expected }: VarianceFiguresView,
  { y, right }: Frame,
): readonly Shape[] {
  return [
    written(`authorised ${hours(authorised, 0)}`, { x: LEFT + 6, y: y(authorised) - 5 }, TEXT),
    written('expected', { x: right + 8, y: y(expected) + 4 }, TEXT),
    written(hours(expected, 0), { x: right + 8, y: y(expected) + 4 + NAME_STEP }, TEXT),
  ]
}

/** 'Week 48: 120 h planned, 96 h earned, 131 h spent of 212 h authorised; 240 h expected at completion, over 14 weeks' */
function curveWords(weeks: readonly CurveWeek[], { hours: pair, expected }: VarianceFiguresView): string {
  const last = weeks.findLast(({ earned }) => earned !== null) ?? weeks[0]
  if (last === undefined) return ''
  const { words, planned, earned, spent } = last
  return [
    `${words}: ${hours(planned)} planned, ${hours(earned ?? 0)} earned, ${hours(spent ?? 0)} spent`,
    `of ${hours(pair.authorised)} authorised; ${hours(expected)} expected at completion,`,
    `over ${plural('week', weeks.length)}`,
  ].join(' ')
}
