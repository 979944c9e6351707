import type { CarState } from '../car.ts'
import type { BookingView } from './view-shapes.ts'
import type { ViewContext } from './view-context.ts'

/** Standing bookings of a car that are not over, the earliest first. */
export function bookingViews(car: CarState, { workshop, today }: ViewContext): readonly BookingView[] {
  return [...car.bookings.values()]
    .filter(({ cancelled, to }) => cancelled === null && to >= today)
    .map(({ id, bayId, from, to }) => {
      const bayName = workshop.bays.get(bayId)?.name ?? 'a bay'
      return { bookingId: id, carId: car.id, carName: car.name, bayId, bayName, from, to }
    })
    .toSorted((a, b) => a.from.localeCompare(b.from))
}
