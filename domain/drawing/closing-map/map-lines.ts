import type { Point } from '../shapes.ts'
import type { MapBox, MapCover, MapFit, MapLink, MapUpright } from './map-shapes.ts'
import { GAP, ROW_GAP } from './map-gaps.ts'
import type { Slot } from './map-grid.ts'

/** Uprights that pass deeper rows run in the gutters, this far apart. */
const LANE = 7

export type Placed = ReadonlyMap<string, Slot & { readonly box: MapBox }>

export interface Columns {
  /** Left edge of the cluster, half a gutter's room before its first column. */
  readonly left: number
  readonly boxWidth: number
  readonly columns: number
}

export function drawUprights(
  covers: readonly MapCover[],
  placed: Placed,
  grid: Columns,
): readonly MapUpright[] {
  const { boxWidth } = grid
  const lanes = new Map<number, number>()
  return covers.flatMap((cover) => {
    const over = placed.get(cover.over)
    const under = placed.get(cover.under)
    if (over === undefined || under === undefined || under.row <= over.row) return []
    const leaving = share(covers, cover, 'over', placed)
    const arriving = share(covers, cover, 'under', placed)
    const from = { x: over.box.x + boxWidth * leaving, y: over.box.y + over.box.height }
    const to = { x: under.box.x + boxWidth * arriving, y: under.box.y }
    const between = [...placed.values()].some(
      ({ row, column }) => row > over.row && row < under.row && column === over.column,
    )
    if (over.column === under.column && !between) {
      const path = [from, { x: from.x, y: to.y }]
      return [{ ...cover, path, bar: middle(from, { x: from.x, y: to.y }) }]
    }
    if (under.row === over.row + 1) {
      const y = from.y + (to.y - from.y) * (0.3 + 0.4 * leaving)
      const path = [from, { x: from.x, y }, { x: to.x, y }, to]
      return [{ ...cover, path, bar: middle({ x: to.x, y }, to) }]
    }
    return [{ ...cover, ...throughGutter(from, to, grid, lanes) }]
  })
}

/** Past deeper rows an upright runs in the gutter that is nearest to both of its ends; the right one of two. */
function throughGutter(
  from: Point,
  to: Point,
  { left, boxWidth, columns }: Columns,
  lanes: Map<number, number>,
) {
  const gutters = Array.from({ length: columns + 1 }, (_, index) => left + GAP / 2 + index * (boxWidth + GAP))
  const way = (x: number) => Math.abs(from.x - x) + Math.abs(to.x - x)
  const gutter = gutters.reduce((best, x) => (way(x) <= way(best) ? x : best))
  const lane = lanes.get(gutter) ?? 0
  lanes.set(gutter, lane + 1)
  const turn = (lane % 4) - 1.5
  const x = gutter + turn * LANE
  const high = from.y + ROW_GAP / 2 + turn * 4
  const low = to.y - ROW_GAP / 2 + turn * 4
  const path = [from, { x: from.x, y: high }, { x, y: high }, { x, y: low }, { x: to.x, y: low }, to]
  return { path, bar: { x, y: (high + low) / 2 } }
}

/** Neighbours of one fit group are linked where they stand side by side. */
export function drawLinks(fit: MapFit, placed: Placed): readonly MapLink[] {
  const members = fit.members.flatMap((id) => placed.get(id) ?? [])
  return members.flatMap((a) =>
    members.flatMap((b): readonly MapLink[] => {
      if (a.row !== b.row || b.column !== a.column + 1) return []
      const y = a.box.y + a.box.height / 2
      return [{ groupId: fit.id, from: { x: a.box.x + a.box.width, y }, to: { x: b.box.x, y } }]
    }),
  )
}

/** Where along the edge of its box the line stands, as a share of the edge; in the order of the columns it comes from. */
function share(covers: readonly MapCover[], one: MapCover, end: 'over' | 'under', placed: Placed): number {
  const other = end === 'over' ? 'under' : 'over'
  const columnOf = (cover: MapCover): number => placed.get(cover[other])?.column ?? 0
  const all = covers.filter((each) => each[end] === one[end]).toSorted((a, b) => columnOf(a) - columnOf(b))
  return (all.indexOf(one) + 1) / (all.length + 1)
}

const middle = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 })
