import { mm } from '../../domain/text/words.ts'
import type { BayPlace } from '../parts/drawing/bay-place.ts'
import type { WorkshopBay } from './workshop-shapes.ts'

export interface PlacedBay {
  readonly bay: WorkshopBay
  readonly place: BayPlace
}

/** Bays snap to this when dragged or moved by the keys: a fifth of a metre. */
export const SNAP = 2

export const snapped = (value: number): number => Math.round(value / SNAP) * SNAP

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
