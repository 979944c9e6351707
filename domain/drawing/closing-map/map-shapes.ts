import type { Zone } from '../../facts/shapes.ts'
import type { Box, Point } from '../shapes.ts'

/** What the closing map is drawn from and consists of. Lengths are CSS pixels on a screen and points on paper. */
export interface MapRepair {
  readonly id: string
  readonly zone: Zone
  /** 0 for repairs that nothing covers. */
  readonly depth: number
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

export interface MapBox extends Box {
  readonly id: string
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

export interface MapCluster extends Box {
  /** 'Right rear', 'Centre rear and right rear' */
  readonly title: string
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
