import type { Moment } from '../car.ts'
import { plural, timeOfDay } from '../text/words.ts'
import { MS_PER_HOUR } from '../time/zone.ts'
import { type Drawing, filled, type Shape, short, stroked, written } from './shapes.ts'
import { shorten } from './text-fit.ts'

export interface CardDayToDraw {
  /** Each with the row that it stands in; null where it has no place yet. */
  readonly photos: readonly { readonly at: Moment; readonly row: string | null }[]
  readonly rows: readonly {
    readonly key: string
    readonly name: string
    readonly spans: readonly { readonly from: Moment; readonly to: Moment }[]
    readonly passed: readonly Moment[]
  }[]
  /** IANA zone. */
  readonly zone: string
}

/**
 * One day of a card: time from left to right, a row for each piece of work with bars where it was worked on and a flag
 * where it was passed, and the photos as uprights in the row of their work; those without a place stand above.
 *
 * @param width units of the drawing; 280 or more
 */
export function drawCardDay(day: CardDayToDraw, width: number): Drawing {
  const unplaced = day.photos.filter(({ row }) => row === null)
  const lost = { key: '', name: 'without a place', spans: [], passed: [] }
  const rows = [...(unplaced.length > 0 ? [lost] : []), ...day.rows]
  const scale = scaleOf(day, width)
  const height = TOP + rows.length * ROW
  return {
    width,
    height,
    shapes: [
      ...hourLines(scale, day.zone, rows.length),
      ...rows.flatMap((row, index) => {
        const top = TOP + index * ROW
        const photos = day.photos.filter((photo) => (photo.row ?? '') === row.key)
        return rowShapes(row, photos, { ...scale, top, width })
      }),
    ],
    words: wordsOf(day, unplaced.length),
  }
}

const TOP = 20
const ROW = 44
const TEXT = 13
/** From the top of a row to the top of its bars. */
const BAR = 20
const BAR_HEIGHT = 12
/** Room at both sides, so that the first and the last hour can be read. */
const SIDE = 18
const LABEL_WIDTH = 44
const STEPS = [1, 2, 3, 4, 6, 12]

interface Scale {
  /** The full hours between which everything lies. */
  readonly first: Moment
  readonly last: Moment
  readonly x: (at: Moment) => number
}

function scaleOf({ photos, rows }: CardDayToDraw, width: number): Scale {
  const spans = rows.flatMap((row) => row.spans.flatMap(({ from, to }) => [from, to]))
  const moments = [...photos.map(({ at }) => at), ...spans, ...rows.flatMap(({ passed }) => passed)]
  const first = Math.floor(Math.min(...moments) / MS_PER_HOUR) * MS_PER_HOUR
  const last = Math.max(first + MS_PER_HOUR, Math.ceil(Math.max(...moments) / MS_PER_HOUR) * MS_PER_HOUR)
  return { first, last, x: (at) => SIDE + ((width - 2 * SIDE) * (at - first)) / (last - first) }
}

/** Behind the bars alone, so that names stand on clear ground. */
function hourLines({ first, last, x }: Scale, zone: string, rows: number): readonly Shape[] {
  const hours = (last - first) / MS_PER_HOUR
  const perHour = x(first + MS_PER_HOUR) - x(first)
  const step = STEPS.find((each) => each * perHour >= LABEL_WIDTH) ?? hours
  const moments = Array.from(
    { length: Math.floor(hours / step) + 1 },
    (_, index) => first + index * step * MS_PER_HOUR,
  )
  return moments.flatMap((at) => [
    written(timeOfDay(at, zone), { x: x(at), y: TEXT }, TEXT, { anchor: 'middle', tone: 'quiet' }),
    ...Array.from({ length: rows }, (_, index) =>
      stroked(`M${short(x(at))} ${TOP + index * ROW + BAR}v${BAR_HEIGHT + 4}`, 'line', 0.5),
    ),
  ])
}

function rowShapes(
  { name, spans, passed }: CardDayToDraw['rows'][number],
  photos: CardDayToDraw['photos'],
  { x, top, width }: Scale & { readonly top: number; readonly width: number },
): readonly Shape[] {
  const bar = top + BAR
  const foot = bar + BAR_HEIGHT
  const isLost = spans.length + passed.length === 0
  return [
    written(shorten(name, width - 2 * SIDE, TEXT, true), { x: SIDE, y: top + TEXT + 1 }, TEXT, {
      bold: true,
    }),
    stroked(`M${SIDE} ${foot}H${short(width - SIDE)}`, 'line', 1),
    ...spans.map(({ from, to }) =>
      filled(
        `M${short(x(from))} ${bar}H${short(Math.max(x(to), x(from) + 1))}V${foot}H${short(x(from))}Z`,
        'steel',
        'ink',
        1,
      ),
    ),
    ...passed.map((at) =>
      filled(`M${short(x(at))} ${foot}V${bar - 5}l8 3.5l-8 3.5`, 'passed', 'passed', 1.5),
    ),
    ...photos.map(({ at }) =>
      stroked(`M${short(x(at))} ${bar - 3}V${foot + 3}`, isLost ? 'accent' : 'ink', 2.25),
    ),
  ]
}

function wordsOf({ photos, rows, zone }: CardDayToDraw, lost: number): string {
  const moments = photos.map(({ at }) => at)
  const [first, last] = [Math.min(...moments), Math.max(...moments)].map((at) => timeOfDay(at, zone))
  const beside = `${plural('photo', photos.length)} from ${first} to ${last} beside ${plural('piece', rows.length)} of work`
  return lost === 0 ? `${beside}.` : `${beside}; ${lost} without a place.`
}
