import { fixed, plural } from '../text/words.ts'
import type { JudgedDot } from '../views/were-we-right-shapes.ts'
import {
  circlePath,
  diamondPath,
  type Drawing,
  filled,
  type PathShape,
  type Shape,
  short,
  stroked,
  written,
} from './shapes.ts'

/**
 * What finished repairs took as multiples of their estimate, in the order of finishing, on a scale on which half and double
 * lie as far from the estimate. Each stands in a column with a line at what half and a dashed one at what four of five were
 * said to stay at or under; what stayed within that is a dot, what did not a barred diamond.
 *
 * @param width units of the drawing; labels need 280 or more
 */
export function drawJudgedDots(dots: readonly JudgedDot[], width: number): Drawing {
  const frame = frameOf(dots, width)
  return {
    width,
    height: HEIGHT,
    shapes: [
      ...scaleShapes(frame),
      steps(dots, ({ p50, estimated }) => p50 / estimated, frame, []),
      steps(dots, ({ p80, estimated }) => p80 / estimated, frame, [5, 3]),
      ...dots.flatMap((dot, index) => markOf(dot, frame.column(index) + frame.step / 2, frame)),
      ...lineNames(dots, frame),
    ],
    words: wordsOf(dots),
  }
}

const HEIGHT = 260
const TOP = 14
const BOTTOM = 30
const LEFT = 46
const RIGHT = 44
const TEXT = 13
const WIDEST_COLUMN = 34
/** At least from half to double. */
const LEAST_REACH = Math.log(2)
const TICKS = [0.1, 0.2, 0.3, 0.5, 0.7, 1, 1.5, 2, 3, 5, 10, 20]

interface Frame {
  /** Left edge of a job's column. */
  readonly column: (index: number) => number
  readonly step: number
  readonly right: number
  readonly y: (ratio: number) => number
  readonly ticks: readonly number[]
}

function frameOf(dots: readonly JudgedDot[], width: number): Frame {
  const logs = dots.flatMap(({ actual, p50, p80, estimated }) =>
    [actual, p50, p80].map((hours) => Math.log(hours / estimated)),
  )
  const low = Math.min(-LEAST_REACH, ...logs)
  const high = Math.max(LEAST_REACH, ...logs)
  const step = Math.min(WIDEST_COLUMN, (width - LEFT - RIGHT) / Math.max(1, dots.length))
  const y = (ratio: number): number =>
    TOP + ((HEIGHT - TOP - BOTTOM) * (high - Math.log(ratio))) / (high - low)
  return {
    column: (index) => LEFT + step * index,
    step,
    right: width - RIGHT,
    y,
    ticks: TICKS.filter((tick) => Math.log(tick) >= low && Math.log(tick) <= high),
  }
}

function scaleShapes({ y, ticks, right }: Frame): readonly Shape[] {
  return [
    ...ticks.flatMap((tick) => [
      stroked(`M${LEFT} ${short(y(tick))}H${short(right)}`, 'line', tick === 1 ? 1.75 : 0.5),
      written(`${tick}×`, { x: LEFT - 6, y: y(tick) + 4 }, TEXT, {
        anchor: 'end',
        tone: tick === 1 ? 'ink' : 'quiet',
        bold: tick === 1,
      }),
    ]),
    written('finished first', { x: LEFT, y: HEIGHT - 8 }, TEXT, { tone: 'quiet' }),
    written('last', { x: right, y: HEIGHT - 8 }, TEXT, { anchor: 'end', tone: 'quiet' }),
  ]
}

function steps(
  dots: readonly JudgedDot[],
  ratioOf: (dot: JudgedDot) => number,
  { column, y }: Frame,
  dash: readonly number[],
): PathShape {
  const d = dots
    .map((dot, index) => {
      const level = short(y(ratioOf(dot)))
      const to = short(column(index + 1))
      return index === 0 ? `M${short(column(0))} ${level}H${to}` : `V${level}H${to}`
    })
    .join('')
  return stroked(d, 'ink', 1.25, dash)
}

function markOf({ actual, estimated, p80 }: JudgedDot, x: number, { y, step }: Frame): readonly Shape[] {
  const size = Math.max(2, Math.min(4.5, step / 2.5))
  const at = y(actual / estimated)
  if (actual <= p80) return [filled(circlePath({ x, y: at }, size), 'steel', 'ink', 1)]
  const reach = size * 1.4
  return [
    filled(diamondPath({ x, y: at }, reach), 'accent'),
    stroked(`M${short(x)} ${short(at + reach)}V${short(y(p80 / estimated))}`, 'accent', 1),
  ]
}

/** Where the two lines end, apart from each other. */
function lineNames(dots: readonly JudgedDot[], { column, y }: Frame): readonly Shape[] {
  const last = dots.at(-1)
  if (last === undefined) return []
  const x = column(dots.length) + 5
  const [at50, at80] = [y(last.p50 / last.estimated), y(last.p80 / last.estimated)]
  const apart = Math.max(0, TEXT + 1 - (at50 - at80)) / 2
  return [
    written('80 %', { x, y: at80 + 4 - apart }, TEXT),
    written('50 %', { x, y: at50 + 4 + apart }, TEXT),
  ]
}

function wordsOf(dots: readonly JudgedDot[]): string {
  const over = dots.filter(({ actual, p80 }) => actual > p80).length
  const ratios = dots.map(({ actual, estimated }) => actual / estimated)
  if (ratios.length === 0) return 'No repair is finished yet.'
  return `${plural('repair', dots.length)} in the order of finishing: from ${fixed(Math.min(...ratios), 2)} to ${fixed(Math.max(...ratios), 2)} times the estimate, ${over} over the 80 % figure.`
}
