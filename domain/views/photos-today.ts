import type { AttachmentState, CarState } from '../car.ts'
import { perRevision } from '../value/per-revision.ts'
import { dayEnd, dayStart } from '../time/zone.ts'
import { photoView } from './photo-view.ts'
import type { ViewContext } from './view-context.ts'
import type { ShopFloorView } from './view-shapes.ts'

/** As many as are shown; the rest of the day stands on the cars' own pages. */
const MOST_SHOWN = 12

/** Photos that count at today, of all cars, the newest first. */
export function photosToday(
  cars: readonly CarState[],
  { today, workshop, nameOf }: ViewContext,
): ShopFloorView['photosToday'] {
  const [start, end] = [dayStart(today, workshop.zone), dayEnd(today, workshop.zone)]
  const found = cars.flatMap((car) => sinceStart(car, start, end))
  const newest = found.toSorted(
    (a, b) => b.photo.countsAt - a.photo.countsAt || b.photo.stamp.number - a.photo.stamp.number,
  )
  return {
    count: found.length,
    newest: newest.slice(0, MOST_SHOWN).map(({ car, photo }) => ({
      ...photoView(car, photo, nameOf),
      carId: car.id,
      carName: car.name,
    })),
  }
}

interface PhotoOn {
  readonly car: CarState
  readonly photo: AttachmentState
}

function sinceStart(car: CarState, start: number, end: number): readonly PhotoOn[] {
  const photos = latestFirst(car)
  const past = photos.findIndex(({ countsAt }) => countsAt < start)
  return photos
    .slice(0, past === -1 ? photos.length : past)
    .filter(({ countsAt }) => countsAt < end)
    .map((photo) => ({ car, photo }))
}

/** Ten years of photos are ordered once for each change of their car, not on every visit of the screen. */
const latestFirst = perRevision((car): readonly AttachmentState[] =>
  [...car.attachments.values()].toSorted((a, b) => b.countsAt - a.countsAt),
)
