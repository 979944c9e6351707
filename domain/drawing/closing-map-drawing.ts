import { BAND, CLUSTER_GAP, GAP, ROW_GAP } from './closing-map/map-gaps.ts'
import {
  arrange,
  clustersOf,
  type Grid,
  type Row,
  shelvesOf,
  type Slot,
  sum,
  titleOf,
} from './closing-map/map-grid.ts'
import { drawLinks, drawUprights } from './closing-map/map-lines.ts'
import type {
  ClosingMapDrawing,
  MapBox,
  MapCover,
  MapFit,
  MapRepair,
  MapSize,
} from './closing-map/map-shapes.ts'
import type { Point } from './shapes.ts'

/**
 * Where the closing map of a car puts what it draws: boxes of repairs from the outside at the top to the inside at the
 * bottom, uprights from what covers to what it covers, dashed links between neighbours of one fit group.
 * Covers and members that name an unknown repair are left out.
 */
export function drawClosingMap(
  repairs: readonly MapRepair[],
  covers: readonly MapCover[],
  fits: readonly MapFit[],
  size: MapSize,
): ClosingMapDrawing {
  const known = new Set(repairs.map((repair) => repair.id))
  const drawn = covers.filter(({ over, under }) => known.has(over) && known.has(under))
  const most = Math.max(1, Math.floor((size.width - GAP) / (size.minBoxWidth + GAP)))
  const grids = clustersOf(repairs, drawn).map((members) => arrange(members, drawn, most))
  const shelves = shelvesOf(grids, most)
  const columns = Math.max(1, ...shelves.map((shelf) => sum(shelf.map((grid) => grid.columns))))
  const boxWidth = Math.min(size.maxBoxWidth, (size.width - GAP) / columns - GAP)
  let y = 0
  const parts = shelves.flatMap((shelf) => {
    let column = 0
    const placed = shelf.map((grid) => {
      const part = drawCluster(grid, fits, { x: column * (boxWidth + GAP), y }, { ...size, boxWidth })
      column += grid.columns
      return part
    })
    y += Math.max(...placed.map((part) => part.cluster.height))
    return placed
  })
  return {
    width: size.width,
    height: y,
    clusters: parts.map((part) => part.cluster),
    boxes: parts.flatMap((part) => part.boxes),
    uprights: parts.flatMap((part) => part.uprights),
    links: parts.flatMap((part) => part.links),
    letters: new Map(fits.map((fit, index) => [fit.id, letterOf(index)])),
  }
}

function drawCluster(
  { repairs, covers, columns, rows, slots }: Grid,
  fits: readonly MapFit[],
  origin: Point,
  { boxWidth, boxHeight, titleHeight }: MapSize & { readonly boxWidth: number },
) {
  const rowTops = topsOfRows(rows, origin.y + titleHeight, boxHeight)
  const boxOf = ({ repair, row, column }: Slot): MapBox => ({
    id: repair.id,
    x: origin.x + GAP + column * (boxWidth + GAP),
    y: rowTops[row] ?? 0,
    width: boxWidth,
    height: boxHeight,
  })
  const placed = new Map(slots.map((slot) => [slot.repair.id, { ...slot, box: boxOf(slot) }]))
  const bottom = (rowTops.at(-1) ?? origin.y) + boxHeight
  const width = GAP + columns * (boxWidth + GAP)
  return {
    cluster: {
      title: titleOf(repairs),
      ...origin,
      width,
      height: bottom - origin.y + CLUSTER_GAP,
      rows: rows.length,
    },
    boxes: [...placed.values()].map(({ box }) => box),
    uprights: drawUprights(covers, placed, { left: origin.x, boxWidth, columns }),
    links: fits.flatMap((fit) => drawLinks(fit, placed)),
  }
}

function topsOfRows(rows: readonly Row[], top: number, boxHeight: number): readonly number[] {
  let y = top
  return rows.map(({ isFirstOfDepth }, index) => {
    if (index > 0) y += boxHeight + (isFirstOfDepth ? BAND : ROW_GAP)
    return y
  })
}

/** A to Z, then A2, B2 ... */
function letterOf(index: number): string {
  const round = Math.floor(index / 26)
  return String.fromCharCode(65 + (index % 26)) + (round === 0 ? '' : String(round + 1))
}
