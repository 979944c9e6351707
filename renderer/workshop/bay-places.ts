import { mm } from '../../domain/text/words.ts'
import type { WorkshopBay } from './workshop-shapes.ts'

/** Where a bay is drawn, in tenths of a metre from the back left corner. */
export type BayPlace = WorkshopBay['floor']

export interface PlacedBay {
  readonly bay: WorkshopBay
  readonly place: BayPlace
}

/** Bays snap to this when dragged or moved by the keys: a fifth of a metre. */
export const SNAP = 2
const LEAST_SIDE = 10
const MOST_SIDE = 1_000
const FARTHEST = 2_000

export const snapped = (value: number): number => Math.round(value / SNAP) * SNAP

/** The place within what the floor holds. */
export function kept(place: BayPlace): BayPlace {
  return {
    x: between(place.x, 0, FARTHEST),
    y: between(place.y, 0, FARTHEST),
    width: between(place.width, LEAST_SIDE, MOST_SIDE),
    height: between(place.height, LEAST_SIDE, MOST_SIDE),
  }
}

const between = (value: number, least: number, most: number): number =>
  Math.min(most, Math.max(least, Math.round(value)))

export const isSamePlace = (a: BayPlace, b: BayPlace): boolean =>
  a.x === b.x && a.y === b.y && a.width === b.width && a.height === b.height

/** '4.2 m' of tenths. */
export const metres = (tenths: number): string => mm(tenths / 10).replace('mm', 'm')

/** Room for all bays with a metre around, in tenths. */
export function floorSize(bays: readonly PlacedBay[]): { readonly width: number; readonly height: number } {
  return {
    width: Math.max(160, ...bays.map(({ place }) => place.x + place.width + 10)),
    height: Math.max(80, ...bays.map(({ place }) => place.y + place.height + 10)),
  }
}

/** A free place right of the bays along the back wall, of the size of a car with room around it. */
export function freePlace(bays: readonly PlacedBay[]): BayPlace {
  const along = bays.filter(({ place }) => place.y < 60)
  return kept({
    x: Math.max(0, ...along.map(({ place }) => place.x + place.width)) + 4,
    y: 0,
    width: 42,
    height: 60,
  })
}

/** Pairs of bays that stand in each other's place, by name. */
export function overlaps(bays: readonly PlacedBay[]): readonly string[] {
  return bays.flatMap((one, index) =>
    bays
      .slice(index + 1)
      .filter((other) => doOverlap(one.place, other.place))
      .map((other) => `${one.bay.name} and ${other.bay.name}`),
  )
}

const doOverlap = (a: BayPlace, b: BayPlace): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height
