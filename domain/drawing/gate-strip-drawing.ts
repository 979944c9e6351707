import type { Gate } from '../gates.ts'
import { english } from '../language/english.ts'
import type { OwnerLanguage } from '../language/owner-language.ts'
import type { MarkKind } from '../views/shared-views.ts'
import {
  boxPath,
  diamondPath,
  type Drawing,
  filled,
  type PathShape,
  type Point,
  type Shape,
  short,
  stroked,
  written,
} from './shapes.ts'

export interface StripMark {
  readonly gate: Gate
  readonly mark: MarkKind
}

export interface StripOptions {
  readonly width: number
  /** Height of a passed bar; 11 unless said. The drawing is 1.6 times as high. */
  readonly size?: number
  /** Writes the gates below their stations; needs about 62 units a station at the usual size. */
  readonly names?: boolean
  /** The language of its words; English unless said. The names below its stations are the screens' own. */
  readonly say?: OwnerLanguage
}

/**
 * The stations of a repair's gates on a line, in the repair's own order: passed is a solid bar, next an open diamond, held
 * a barred one, later a tick, not needed a dash in a gap of the line, left as found a crossed box.
 */
export function drawGateStrip(marks: readonly StripMark[], options: StripOptions): Drawing {
  const { width, size = 11, names = false } = options
  const inset = names ? width / marks.length / 2 : size * 0.75
  const step = marks.length < 2 ? 0 : (width - 2 * inset) / (marks.length - 1)
  const y = size * 0.8
  const stations = marks.map(({ gate, mark }, index) => ({ gate, mark, at: { x: inset + index * step, y } }))
  const textSize = size * 0.95
  return {
    width,
    height: 2 * y + (names ? textSize * 1.6 : 0),
    shapes: [
      ...railShapes(stations, size),
      ...stations.flatMap(({ mark, at }) => markShapes(mark, at, size)),
      ...(names ? stations.map((station) => nameShape(station, textSize, y * 2 + textSize)) : []),
    ],
    words: stripWords(marks, options.say),
  }
}

/** One mark by itself, for a legend. */
export function drawMark(mark: MarkKind, size = 11): Drawing {
  const side = size * 1.6
  return {
    width: side,
    height: side,
    shapes: markShapes(mark, { x: side / 2, y: side / 2 }, size),
    words: markWords[mark],
  }
}

/** As the screens say them. */
export const markWords = english.drawing.marks

/** 'opened and assessed passed; fabricated next, held; sealed, primed ... and painted later' */
export function stripWords(marks: readonly StripMark[], { drawing }: OwnerLanguage = english): string {
  const groups: { readonly mark: MarkKind; readonly gates: Gate[] }[] = []
  for (const { gate, mark } of marks) {
    const last = groups.at(-1)
    if (last?.mark === mark) last.gates.push(gate)
    else groups.push({ mark, gates: [gate] })
  }
  return groups.map(({ mark, gates }) => drawing.marked(gates, mark)).join('; ')
}

interface Station extends StripMark {
  readonly at: Point
}

/** The line: strong as far as the repair has come, fine beyond; it stops at the edge of open marks. */
function railShapes(stations: readonly Station[], size: number): readonly PathShape[] {
  return stations.slice(1).flatMap((to, index) => {
    const from = stations[index]
    if (from === undefined) return []
    const a = from.at.x + clearance(from.mark, size)
    const b = to.at.x - clearance(to.mark, size)
    const d = `M${short(a)} ${short(to.at.y)}H${short(b)}`
    return [
      isSettled(from.mark) && to.mark !== 'later' ? stroked(d, 'quiet', size * 0.13) : stroked(d, 'line', 1),
    ]
  })
}

const isSettled = (mark: MarkKind): boolean => mark !== 'later' && mark !== 'next' && mark !== 'held'

/** Half the width that a mark takes of the line. */
function clearance(mark: MarkKind, size: number): number {
  switch (mark) {
    case 'next':
    case 'held':
      return size * 0.62
    case 'as found':
      return size * 0.4
    case 'not needed':
      return size * 0.6
    case 'passed':
    case 'later':
      return 0
  }
}

function markShapes(mark: MarkKind, at: Point, size: number): readonly PathShape[] {
  switch (mark) {
    case 'passed':
      return [filled(box(at, size * 0.44, size), 'passed')]
    case 'next':
      return [outlined(diamondPath(at, size * 0.62), 'passed', size)]
    case 'held':
      return [
        outlined(diamondPath(at, size * 0.62), 'accent', size),
        dash(at, size * 0.64, 'accent', size * 0.18),
      ]
    case 'later':
      return [
        stroked(`M${short(at.x)} ${short(at.y - size * 0.27)}v${short(size * 0.54)}`, 'quiet', size * 0.1),
      ]
    case 'not needed':
      return [dash(at, size * 0.54, 'quiet', size * 0.18)]
    case 'as found':
      return [outlined(box(at, size * 0.8, size * 0.8), 'accent', size), cross(at, size * 0.8, size * 0.13)]
  }
}

const outlined = (d: string, tone: 'passed' | 'accent', size: number): PathShape =>
  filled(d, 'sheet', tone, size * 0.16)

function dash({ x, y }: Point, length: number, tone: 'quiet' | 'accent', width: number): PathShape {
  return stroked(`M${short(x - length / 2)} ${short(y)}h${short(length)}`, tone, width)
}

function cross({ x, y }: Point, side: number, width: number): PathShape {
  const [left, top] = [short(x - side / 2), short(y - side / 2)]
  const [right, bottom] = [short(x + side / 2), short(y + side / 2)]
  return stroked(`M${left} ${top}L${right} ${bottom}M${right} ${top}L${left} ${bottom}`, 'accent', width)
}

/** Around its middle. */
const box = ({ x, y }: Point, width: number, height: number): string =>
  boxPath({ x: x - width / 2, y: y - height / 2, width, height })

function nameShape({ gate, mark, at }: Station, size: number, y: number): Shape {
  const bold = mark === 'next' || mark === 'held'
  const tone = mark === 'later' || mark === 'not needed' ? 'quiet' : 'ink'
  return written(gate, { x: at.x, y }, size, { anchor: 'middle', bold, tone })
}
