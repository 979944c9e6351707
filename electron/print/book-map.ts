import { drawClosingMap } from '../../domain/drawing/closing-map-drawing.ts'
import type { MapBox, MapUpright } from '../../domain/drawing/closing-map/map-shapes.ts'
import {
  type Drawing,
  filled,
  pathThrough,
  type Shape,
  stroked,
  written,
} from '../../domain/drawing/shapes.ts'
import { wrapText } from '../../domain/drawing/text-fit.ts'
import type { BookMap } from '../../domain/report/car-book-shapes.ts'
import { CONTENT_WIDTH } from './paper.ts'

const SIZE = { width: CONTENT_WIDTH, minBoxWidth: 112, maxBoxWidth: 152, boxHeight: 40, titleHeight: 18 }
const PAD = 6
const TEXT = 8
const SMALL = 7.2

/** The closing map as a drawing: boxes of repairs, uprights to what they cover, dashed links of what is fitted together. */
export function bookMapDrawing({ repairs, covers, fits }: BookMap): Drawing {
  const map = drawClosingMap(repairs, covers, fits, SIZE)
  const byId = new Map(repairs.map((repair) => [repair.id, repair]))
  return {
    width: map.width,
    height: map.height,
    shapes: [
      ...map.links.map(({ from, to }) => stroked(pathThrough([from, to]), 'line', 1, [3, 2])),
      ...map.uprights.map(({ path }: MapUpright) => stroked(pathThrough(path), 'ink', 1.2)),
      ...map.clusters.map(({ x, y, title }) =>
        written(title, { x: x + PAD, y: y + 12 }, SMALL, { tone: 'quiet' }),
      ),
      ...map.boxes.flatMap((box) => {
        const repair = byId.get(box.id)
        return repair === undefined ? [] : boxShapes(box, repair)
      }),
    ],
    words: `${repairs.map(({ name, state }) => `${name}: ${state}`).join('; ')}.`,
  }
}

function boxShapes(
  { x, y, width, height }: MapBox,
  { name, state }: BookMap['repairs'][number],
): readonly Shape[] {
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ]
  // Bold letters are some 6 % wider.
  const lines = wrapText(name, (width - 2 * PAD) / 1.06, TEXT, 2)
  return [
    filled(pathThrough(corners, true), 'sheet', 'ink', 0.8),
    ...lines.map((text, index) =>
      written(text, { x: x + PAD, y: y + 12 + index * 9.5 }, TEXT, { bold: true }),
    ),
    written(state, { x: x + PAD, y: y + height - 6 }, SMALL, { tone: 'quiet' }),
  ]
}
