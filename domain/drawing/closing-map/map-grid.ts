import { capital } from '../../text/words.ts'
import { zoneWords } from '../../views/work-words.ts'
import type { MapCover, MapRepair } from './map-shapes.ts'

export interface Slot {
  readonly repair: MapRepair
  readonly row: number
  readonly column: number
}

/** A cluster on its grid, before it is known how wide a column is. */
export interface Grid {
  readonly repairs: readonly MapRepair[]
  readonly covers: readonly MapCover[]
  readonly columns: number
  readonly rows: readonly Row[]
  readonly slots: readonly Slot[]
}

export function arrange(repairs: readonly MapRepair[], covers: readonly MapCover[], most: number): Grid {
  const ids = new Set(repairs.map((repair) => repair.id))
  const inside = covers.filter(({ over }) => ids.has(over))
  const bands = orderedBands(repairs, inside)
  const columns = Math.min(most, Math.max(...bands.map((band) => band.length)))
  const rows = bands.flatMap((band) => splitRow(band, columns))
  return { repairs, covers: inside, columns, rows, slots: placeInColumns(rows, inside, columns) }
}

/** Repairs of one zone belong together, and so do repairs that cover one another. */
export function clustersOf(
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

/** Clusters side by side as long as their columns fit, in their order. */
export function shelvesOf(grids: readonly Grid[], most: number): readonly (readonly Grid[])[] {
  const shelves: Grid[][] = []
  for (const grid of grids) {
    const last = shelves.at(-1)
    const used = sum((last ?? []).map(({ columns }) => columns))
    if (last === undefined || used + grid.columns > most) shelves.push([grid])
    else last.push(grid)
  }
  return shelves
}

const SWEEPS = 4

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

export interface Row {
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

const SIDE_ORDER = { left: 0, centre: 1, right: 2 }
const PLACE_ORDER = { front: 0, middle: 3, rear: 6 }

function zoneOrder({ zone }: MapRepair): number {
  return PLACE_ORDER[zone.place] + SIDE_ORDER[zone.side]
}

export function titleOf(repairs: readonly MapRepair[]): string {
  const zones = new Set(
    repairs.toSorted((a, b) => zoneOrder(a) - zoneOrder(b)).map(({ zone }) => capital(zoneWords(zone))),
  )
  const words = [...zones].map((zone, index) =>
    index === 0 ? zone : zone.charAt(0).toLowerCase() + zone.slice(1),
  )
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

export const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0)
