import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { CarId } from '../../domain/ids.ts'
import { workKey, type ProposedPhoto, type CardProposal } from '../../domain/import/photo-proposal.ts'
import type { FittingWork } from '../../domain/import/photo-match-shapes.ts'

/** Where a photo is to be attached and what it shows there. */
export interface Place {
  readonly carId: CarId
  readonly serves: PhotoServes
}

/** What the person has said about a photo; what they have not is as it was proposed. */
export interface Said {
  readonly place?: Place
  readonly ticked?: boolean
}

export interface PlacedPhoto extends ProposedPhoto {
  /** Null while nobody has chosen among several, or nothing fits. */
  readonly place: Place | null
  readonly byHand: boolean
  readonly ticked: boolean
  /** It is attached to this very gate, task or car already. */
  readonly isHere: boolean
  /** The fit that the place follows; null for one that was chosen by hand. */
  readonly fit: FittingWork | null
}

/** Every photo with its place: proposed, or as the person said. A photo that is here already is not proposed again. */
export function placePhotos(
  { photos }: CardProposal,
  said: ReadonlyMap<string, Said>,
  reference: string | null,
): readonly PlacedPhoto[] {
  return photos.map((photo) => {
    const words = said.get(photo.sha256) ?? {}
    const proposed = isProposed(photo) ? (photo.fits[0] ?? null) : null
    const place = words.place ?? (proposed === null ? null : fitToPlace(proposed))
    const isHere = place !== null && isAttached(photo, place)
    const isUsual = place !== null && photo.here.length === 0 && photo.sha256 !== reference
    return {
      ...photo,
      place,
      byHand: words.place !== undefined,
      isHere,
      ticked: place !== null && !isHere && (words.ticked ?? (isUsual || words.place !== undefined)),
      fit:
        place === null
          ? null
          : ([...photo.fits, ...photo.others].find((fit) => isSamePlace(fitToPlace(fit), place)) ?? null),
    }
  })
}

const isProposed = ({ sure }: ProposedPhoto): boolean => sure === 'certain' || sure === 'likely'

export function fitToPlace({ carId, target, shows, layerId }: FittingWork): Place {
  return target.kind === 'task'
    ? { carId, serves: { what: 'task', taskId: target.taskId } }
    : { carId, serves: { what: 'gate', repairId: target.repairId, gate: target.gate, shows, layerId } }
}

/** The same gate, task or car; what the photo shows of it does not matter. */
function isSamePlace(a: Place, b: Place): boolean {
  return placeKey(a) === placeKey(b)
}

export function placeKey({ carId, serves }: Place): string {
  switch (serves.what) {
    case 'gate':
      return workKey(carId, { kind: 'gate', repairId: serves.repairId, gate: serves.gate })
    case 'task':
      return workKey(carId, { kind: 'task', taskId: serves.taskId })
    case 'car':
      return carId
  }
}

function isAttached({ here }: ProposedPhoto, place: Place): boolean {
  return here.some(({ carId, serves }) => serves.some((each) => isSamePlace({ carId, serves: each }, place)))
}

/** Several photos that go the same way: to one place for one reason, or with the same choice before them. */
export interface PhotoGroup {
  readonly key: string
  readonly photos: readonly PlacedPhoto[]
}

export interface SortedPhotos {
  /** By car, by gate or task, by reason. */
  readonly placed: readonly {
    readonly carId: CarId
    readonly works: readonly { readonly place: Place; readonly groups: readonly PhotoGroup[] }[]
  }[]
  /** Those that fit several pieces of work, by what they fit. */
  readonly several: readonly PhotoGroup[]
  /** By why nothing fits. */
  readonly nothing: readonly PhotoGroup[]
  /** Attached already, to where they were proposed or, when nothing was, anywhere. */
  readonly here: readonly PlacedPhoto[]
}

export function sortPhotos(photos: readonly PlacedPhoto[]): SortedPhotos {
  const isDone = (photo: PlacedPhoto) => photo.isHere || (photo.here.length > 0 && photo.place === null)
  const open = photos.filter((photo) => !isDone(photo))
  const placed = open.filter((photo) => photo.place !== null)
  const unplaced = open.filter((photo) => photo.place === null)
  return {
    placed: groups(placed, (photo) => photo.place?.carId ?? '').map(({ key, photos: ofCar }) => ({
      carId: key as CarId,
      works: groups(ofCar, (photo) => (photo.place === null ? '' : placeKey(photo.place))).flatMap(toWork),
    })),
    several: groups(
      unplaced.filter(({ sure }) => sure === 'several fit'),
      ({ fits }) =>
        fits
          .map((fit) => placeKey(fitToPlace(fit)))
          .toSorted()
          .join(' '),
    ),
    nothing: groups(
      unplaced.filter(({ sure }) => sure !== 'several fit'),
      ({ says }) => says,
    ),
    here: photos.filter(isDone),
  }
}

function toWork({ photos }: PhotoGroup) {
  const place = photos[0]?.place ?? null
  const byReason = groups(photos, ({ fit, byHand, sure }) => (byHand ? 'by hand' : `${sure} ${fit?.why}`))
  return place === null ? [] : [{ place, groups: byReason }]
}

/** In the order in which the first photo of each was taken. */
function groups(
  photos: readonly PlacedPhoto[],
  keyOf: (photo: PlacedPhoto) => string,
): readonly PhotoGroup[] {
  return [...Map.groupBy(photos, keyOf)].map(([key, members]) => ({ key, photos: members }))
}
