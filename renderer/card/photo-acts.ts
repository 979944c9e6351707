import type { Place, PlacedPhoto } from './places.ts'

/** What a person may do with one or more photos. */
export interface PhotoActs {
  readonly tick: (photos: readonly PlacedPhoto[], ticked: boolean) => void
  readonly place: (photos: readonly PlacedPhoto[], place: Place) => void
  /** Opens the choice of another place for them. */
  readonly ask: (photos: readonly PlacedPhoto[]) => void
}
