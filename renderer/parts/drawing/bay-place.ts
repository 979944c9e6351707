/** Where a bay is drawn, in tenths of a metre from the back left corner. */
export interface BayPlace {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

const LEAST_SIDE = 10
const MOST_SIDE = 1_000
const FARTHEST = 2_000

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

/** A free place right of the bays along the back wall, of the size of a car with room around it. */
export function freePlace(bays: readonly { readonly place: BayPlace }[]): BayPlace {
  const along = bays.filter(({ place }) => place.y < 60)
  return kept({
    x: Math.max(0, ...along.map(({ place }) => place.x + place.width)) + 4,
    y: 0,
    width: 42,
    height: 60,
  })
}
