import { capital, zoneWords } from '../views/work-words.ts'

/**
 * Where the closing map of a car puts what it draws: boxes of repairs from the outside at the top to the inside at the
 * bottom, uprights from what covers to what it covers, dashed links between neighbours of one fit group. Lengths are
 * CSS pixels on a screen and points on paper.
 */
export interface MapRepair {
  readonly id: string
  readonly zone: MapZone
  /** 0 for repairs that nothing covers. */
  readonly depth: number
}

export interface MapZone {
  readonly side: 'left' | 'right' | 'centre'
  readonly place: 'front' | 'middle' | 'rear'
}

export interface MapCover {
  readonly over: string
  readonly under: string
  readonly barred: boolean
}

export interface MapFit {
  readonly id: string
  readonly members: readonly string[]
}

export interface MapSize {
  readonly width: number
  readonly minBoxWidth: number
  readonly maxBoxWidth: number
  readonly boxHeight: number
  /** Room for the title of a cluster. */
  readonly titleHeight: number
}

export interface Point {
  readonly x: number
  readonly y: number
}

export interface MapBox extends Point {
  readonly id: string
  readonly width: number
  readonly height: number
}

export interface MapUpright extends MapCover {
  /** From the lower edge of `over` to the upper edge of `under`, by horizontal and vertical pieces. */
  readonly path: readonly Point[]
  /** Where the barred box stands when the cover may not close. */
  readonly bar: Point
}

export interface MapLink {
  readonly groupId: string
  readonly from: Point
  readonly to: Point
}

export interface MapCluster extends Point {
  /** 'Right rear', 'Centre rear and right rear' */
  readonly title: string
  readonly width: number
  readonly height: number
  readonly rows: number
}

export interface ClosingMapDrawing {
  readonly width: number
  readonly height: number
  readonly clusters: readonly MapCluster[]
  readonly boxes: readonly MapBox[]
  readonly uprights: readonly MapUpright[]
  readonly links: readonly MapLink[]
  /** 'A', 'B' ... by fit group: the balloon that stands at each member. */
  readonly letters: ReadonlyMap<string, string>
}

/** Covers and members that name an unknown repair are left out. */
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

const GAP = 36
/** Between two depths: room for an upright with its barred box. */
const BAND = 62
/** Between two rows of the same depth. */
const ROW_GAP = 34
const CLUSTER_GAP = 30
/** Uprights that pass deeper rows run in the gutters, this far apart. */
const LANE = 7
const SWEEPS = 4

interface Slot {
  readonly repair: MapRepair
  readonly row: number
  readonly column: number
}

/** Repairs of one zone belong together, and so do repairs that cover one another. */
function clustersOf(
  repairs: readonly MapRepair[],
  covers: readonly MapCover[],
): readonly (readonly MapRepair[])[] {
  const parent = new Map<string, string>()
  const top = (key: string): string => {
    const up = parent.get(key)
    return up === undefined || up === key ? key : top(up)
  }
  const join = (a: string, b: string) => parent.set(top(a), top(b))
  for (const repair of repairs) join(`repair ${repair.id}`, `zone ${zoneWords(repair.zone)}`)
  for (const { over, under } of covers) join(`repair ${over}`, `repair ${under}`)
  const clusters = [...Map.groupBy(repairs, (repair) => top(`repair ${repair.id}`)).values()]
  return clusters.toSorted((a, b) => Math.min(...a.map(zoneOrder)) - Math.min(...b.map(zoneOrder)))
}

/** A cluster on its grid, before it is known how wide a column is. */
interface Grid {
  readonly repairs: readonly MapRepair[]
  readonly covers: readonly MapCover[]
  readonly columns: number
  readonly rows: readonly Row[]
  readonly slots: readonly Slot[]
}

function arrange(repairs: readonly MapRepair[], covers: readonly MapCover[], most: number): Grid {
  const ids = new Set(repairs.map((repair) => repair.id))
  const inside = covers.filter(({ over }) => ids.has(over))
  const bands = orderedBands(repairs, inside)
  const columns = Math.min(most, Math.max(...bands.map((band) => band.length)))
  const rows = bands.flatMap((band) => splitRow(band, columns))
  return { repairs, covers: inside, columns, rows, slots: placeInColumns(rows, inside, columns) }
}

/** Clusters side by side as long as their columns fit, in their order. */
function shelvesOf(grids: readonly Grid[], most: number): readonly (readonly Grid[])[] {
  const shelves: Grid[][] = []
  for (const grid of grids) {
    const last = shelves.at(-1)
    const used = sum((last ?? []).map(({ columns }) => columns))
    if (last === undefined || used + grid.columns > most) shelves.push([grid])
    else last.push(grid)
  }
  return shelves
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

/** Repairs by depth, each row ordered so that few uprights cross: the barycentre method, the best of a few sweeps. */
function orderedBands(
  repairs: readonly MapRepair[],
  covers: readonly MapCover[],
): readonly (readonly MapRepair[])[] {
  const byDepth = Map.groupBy(
    repairs.toSorted((a, b) => a.depth - b.depth || zoneOrder(a) - zoneOrder(b)),
    (repair) => repair.depth,
  )
  let bands = [...byDepth.values()]
  let best = bands
  for (let sweep = 0; sweep < SWEEPS && crossings(best, covers) > 0; sweep += 1) {
    bands = sweepOnce(bands, covers, sweep % 2 === 0)
    if (crossings(bands, covers) < crossings(best, covers)) best = bands
  }
  return best
}

function sweepOnce(bands: MapRepair[][], covers: readonly MapCover[], downwards: boolean): MapRepair[][] {
  const position = positionsOf(bands)
  const centre = (repair: MapRepair): number => {
    const others = covers.flatMap(({ over, under }) => {
      if (downwards) return under === repair.id ? [position.get(over) ?? 0] : []
      return over === repair.id ? [position.get(under) ?? 0] : []
    })
    return others.length === 0
      ? (position.get(repair.id) ?? 0)
      : others.reduce((sum, each) => sum + each, 0) / others.length
  }
  return bands.map((band) => band.toSorted((a, b) => centre(a) - centre(b)))
}

/** Pairs of uprights that run between the same two depths, or over one another, in opposite order. */
function crossings(bands: readonly (readonly MapRepair[])[], covers: readonly MapCover[]): number {
  const position = positionsOf(bands)
  const at = (id: string) => position.get(id) ?? 0
  return covers.reduce(
    (count, a, index) =>
      count +
      covers.slice(index + 1).filter((b) => (at(a.over) - at(b.over)) * (at(a.under) - at(b.under)) < 0)
        .length,
    0,
  )
}

/** Places in a row as shares of the row's length, so that rows of different lengths compare. */
function positionsOf(bands: readonly (readonly MapRepair[])[]): ReadonlyMap<string, number> {
  return new Map(
    bands.flatMap((band) => band.map((repair, index) => [repair.id, (index + 0.5) / band.length] as const)),
  )
}

interface Row {
  readonly repairs: readonly MapRepair[]
  /** False for the second and later rows of one depth. */
  readonly isFirstOfDepth: boolean
}

function splitRow(band: readonly MapRepair[], columns: number): readonly Row[] {
  const count = Math.ceil(band.length / columns)
  const length = Math.ceil(band.length / count)
  return Array.from({ length: count }, (_, row) => ({
    repairs: band.slice(row * length, (row + 1) * length),
    isFirstOfDepth: row === 0,
  }))
}

/** Each repair as near below what covers it as the order of its row allows. */
function placeInColumns(rows: readonly Row[], covers: readonly MapCover[], columns: number): readonly Slot[] {
  const columnOf = new Map<string, number>()
  return rows.flatMap(({ repairs }, row) => {
    let free = 0
    return repairs.map((repair, index) => {
      const above = covers.flatMap(({ over, under }) =>
        under === repair.id && columnOf.has(over) ? [columnOf.get(over) ?? 0] : [],
      )
      const wanted =
        above.length === 0 ? free : Math.round(above.reduce((sum, each) => sum + each, 0) / above.length)
      const column = Math.min(Math.max(free, wanted), columns - (repairs.length - index))
      free = column + 1
      columnOf.set(repair.id, column)
      return { repair, row, column }
    })
  })
}

function topsOfRows(rows: readonly Row[], top: number, boxHeight: number): readonly number[] {
  let y = top
  return rows.map(({ isFirstOfDepth }, index) => {
    if (index > 0) y += boxHeight + (isFirstOfDepth ? BAND : ROW_GAP)
    return y
  })
}

type Placed = ReadonlyMap<string, Slot & { readonly box: MapBox }>

interface Columns {
  /** Left edge of the cluster, half a gutter's room before its first column. */
  readonly left: number
  readonly boxWidth: number
  readonly columns: number
}

function drawUprights(covers: readonly MapCover[], placed: Placed, grid: Columns): readonly MapUpright[] {
  const { boxWidth } = grid
  const lanes = new Map<number, number>()
  return covers.flatMap((cover) => {
    const over = placed.get(cover.over)
    const under = placed.get(cover.under)
    if (over === undefined || under === undefined || under.row <= over.row) return []
    const leaving = share(
      covers.filter((each) => each.over === cover.over),
      cover,
    )
    const arriving = share(
      covers.filter((each) => each.under === cover.under),
      cover,
    )
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
      return [{ ...cover, path, bar: { x: (from.x + to.x) / 2, y } }]
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

/** Neighbours of one fit group are linked where they stand side by side, or one below the other without an upright. */
function drawLinks(fit: MapFit, placed: Placed): readonly MapLink[] {
  const members = fit.members.flatMap((id) => placed.get(id) ?? [])
  return members.flatMap((a) =>
    members.flatMap((b): readonly MapLink[] => {
      if (a.row !== b.row || b.column !== a.column + 1) return []
      const y = a.box.y + a.box.height / 2
      return [{ groupId: fit.id, from: { x: a.box.x + a.box.width, y }, to: { x: b.box.x, y } }]
    }),
  )
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0)

/** Where along the edge of its box the line stands, as a share of the edge. */
function share(all: readonly MapCover[], one: MapCover): number {
  return (all.indexOf(one) + 1) / (all.length + 1)
}

const middle = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 })

const SIDE_ORDER = { left: 0, centre: 1, right: 2 }
const PLACE_ORDER = { front: 0, middle: 3, rear: 6 }

function zoneOrder({ zone }: MapRepair): number {
  return PLACE_ORDER[zone.place] + SIDE_ORDER[zone.side]
}

function titleOf(repairs: readonly MapRepair[]): string {
  const zones = new Set(
    repairs.toSorted((a, b) => zoneOrder(a) - zoneOrder(b)).map(({ zone }) => capital(zoneWords(zone))),
  )
  const words = [...zones].map((zone, index) =>
    index === 0 ? zone : zone.charAt(0).toLowerCase() + zone.slice(1),
  )
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** A to Z, then A2, B2 ... */
function letterOf(index: number): string {
  const round = Math.floor(index / 26)
  return String.fromCharCode(65 + (index % 26)) + (round === 0 ? '' : String(round + 1))
}
