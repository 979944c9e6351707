import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type {
  ClosingMapDrawing,
  MapBox,
  MapCover,
  MapRepair,
  MapSize,
} from '../../../domain/drawing/closing-map/map-shapes.ts'
import type { Point } from '../../../domain/drawing/shapes.ts'
import { drawClosingMap } from '../../../domain/drawing/closing-map-drawing.ts'

const size: MapSize = { width: 760, minBoxWidth: 220, maxBoxWidth: 330, boxHeight: 70, titleHeight: 40 }
const rightRear = { side: 'right', place: 'rear' } as const
const leftFront = { side: 'left', place: 'front' } as const

const repair = (id: string, depth: number, zone: MapRepair['zone'] = rightRear): MapRepair => ({
  id,
  depth,
  zone,
})
const cover = (over: string, under: string, barred = false): MapCover => ({ over, under, barred })
const boxOf = (drawing: ClosingMapDrawing, id: string): MapBox => {
  const box = drawing.boxes.find((each) => each.id === id)
  if (box === undefined) throw new Error(`${id} is not drawn`)
  return box
}

describe('the closing map', () => {
  const chain = [repair('valance', 0), repair('leg', 1), repair('hanger', 2)]
  const links = [cover('valance', 'leg', true), cover('leg', 'hanger')]

  test('puts what covers above what it covers', () => {
    const drawing = drawClosingMap(chain, links, [], size)
    const tops = ['valance', 'leg', 'hanger'].map((id) => boxOf(drawing, id).y)
    expect(tops).toEqual(tops.toSorted((a, b) => a - b))
    expect(new Set(tops).size).toBe(3)
  })

  test('draws one straight upright where nothing stands between, with the bar in its middle', () => {
    const [first] = drawClosingMap(chain, links, [], size).uprights
    expect(first?.barred).toBe(true)
    expect(first?.path).toHaveLength(2)
    expect(first?.bar.y).toBe(((first?.path[0]?.y ?? 0) + (first?.path[1]?.y ?? 0)) / 2)
  })

  test('leads an upright past the repair between, never through it', () => {
    const drawing = drawClosingMap(chain, [...links, cover('valance', 'hanger')], [], size)
    const past = drawing.uprights.find(({ over, under }) => over === 'valance' && under === 'hanger')
    expect(past?.path.length).toBeGreaterThan(2)
    expect(crossedBoxes(past?.path ?? [], drawing.boxes)).toEqual([])
  })

  test('names a cluster by its zones, the front first', () => {
    const drawing = drawClosingMap(
      [repair('valance', 0), repair('scuttle', 0, leftFront), repair('tray', 1, leftFront)],
      [cover('scuttle', 'tray')],
      [],
      size,
    )
    expect(drawing.clusters.map(({ title }) => title)).toEqual(['Left front', 'Right rear'])
  })

  test('joins zones that cover one another', () => {
    const drawing = drawClosingMap(
      [repair('valance', 0, { side: 'centre', place: 'rear' }), repair('hanger', 1)],
      [cover('valance', 'hanger')],
      [],
      size,
    )
    expect(drawing.clusters.map(({ title }) => title)).toEqual(['Centre rear and right rear'])
  })

  test('links neighbours of a fit group with a dashed line and letters the groups', () => {
    const drawing = drawClosingMap(
      [repair('valance', 0), repair('quarter', 0)],
      [],
      [
        { id: 'boot', members: ['valance', 'quarter'] },
        { id: 'door', members: ['quarter'] },
      ],
      size,
    )
    expect(drawing.links).toHaveLength(1)
    expect(Object.fromEntries(drawing.letters)).toEqual({ boot: 'A', door: 'B' })
  })

  test('uncrosses two pairs', () => {
    const drawing = drawClosingMap(
      [repair('a', 0), repair('b', 0), repair('x', 1), repair('y', 1)],
      [cover('a', 'y'), cover('b', 'x')],
      [],
      size,
    )
    const isLeft = (one: string, other: string) => boxOf(drawing, one).x < boxOf(drawing, other).x
    expect(isLeft('a', 'b')).toBe(isLeft('y', 'x'))
  })

  test('leaves out what names a repair that is not there', () => {
    const drawing = drawClosingMap(
      [repair('a', 0)],
      [cover('a', 'gone')],
      [{ id: 'g', members: ['gone'] }],
      size,
    )
    expect(drawing.uprights).toEqual([])
    expect(drawing.links).toEqual([])
  })

  test('keeps boxes apart and inside, and uprights clear of them, on any car and any width', () => {
    fc.assert(
      fc.property(cars, fc.integer({ min: 300, max: 1600 }), ({ repairs, covers }, width) => {
        const drawing = drawClosingMap(repairs, covers, [], { ...size, width })
        expect(drawing.boxes).toHaveLength(repairs.length)
        expect(drawing.uprights).toHaveLength(covers.length)
        for (const box of drawing.boxes) {
          expect(box.x).toBeGreaterThanOrEqual(0)
          expect(box.x + box.width).toBeLessThanOrEqual(width)
          expect(box.y + box.height).toBeLessThanOrEqual(drawing.height)
        }
        expect(overlaps(drawing.boxes)).toEqual([])
        for (const { over, under, path } of drawing.uprights) {
          expect(path[0]?.y).toBe(boxOf(drawing, over).y + size.boxHeight)
          expect(path.at(-1)?.y).toBe(boxOf(drawing, under).y)
          expect(crossedBoxes(path, drawing.boxes)).toEqual([])
        }
      }),
      { numRuns: 300, seed: 20261125 },
    )
  })
})

/** Cars of up to 14 repairs; each covers only later ones, and depths are those of the longest way down. */
const cars = fc
  .array(
    fc.record({
      side: fc.constantFrom('left', 'right', 'centre'),
      place: fc.constantFrom('front', 'middle', 'rear'),
    }),
    {
      minLength: 1,
      maxLength: 14,
    },
  )
  .chain((zones) =>
    fc.record({
      zones: fc.constant(zones),
      pairs: fc.uniqueArray(fc.tuple(fc.nat(zones.length - 1), fc.nat(zones.length - 1)), {
        maxLength: 16,
        selector: ([a, b]) => `${Math.min(a, b)} ${Math.max(a, b)}`,
      }),
    }),
  )
  .map(({ zones, pairs }) => {
    const links = pairs.filter(([a, b]) => a !== b).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const)
    const depths: number[] = []
    zones.forEach((_, index) => {
      const above = links.filter(([, under]) => under === index).map(([over]) => (depths[over] ?? 0) + 1)
      depths.push(Math.max(0, ...above))
    })
    return {
      repairs: zones.map((zone, index) => repair(`r${index}`, depths[index] ?? 0, zone as MapRepair['zone'])),
      covers: links.map(([over, under]) => cover(`r${over}`, `r${under}`)),
    }
  })

function overlaps(boxes: readonly MapBox[]): readonly string[] {
  return boxes.flatMap((a, index) =>
    boxes
      .slice(index + 1)
      .filter(
        (b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height,
      )
      .map((b) => `${a.id} and ${b.id}`),
  )
}

/** Boxes whose inside a path of horizontal and vertical pieces enters. */
function crossedBoxes(path: readonly Point[], boxes: readonly MapBox[]): readonly string[] {
  return boxes
    .filter((box) =>
      path.slice(1).some((to, index) => {
        const from = path[index] ?? to
        const [left, right] = [Math.min(from.x, to.x), Math.max(from.x, to.x)]
        const [top, bottom] = [Math.min(from.y, to.y), Math.max(from.y, to.y)]
        return left < box.x + box.width && right > box.x && top < box.y + box.height && bottom > box.y
      }),
    )
    .map((box) => box.id)
}
