import type { CarState } from '../../car.ts'
import type { BayId, BookingId, CarId } from '../../ids.ts'
import type { WorkshopState } from '../../workshop.ts'
import type { PlanFault } from '../plan.ts'
import type { PlanCar } from '../problem.ts'
import type { PlanFloor } from './floor-bays.ts'
import type { TickScale } from './tick-scale.ts'

export interface KeptBookings {
  readonly of: (car: CarId) => PlanCar['bookings']
  readonly idsOf: (car: CarId) => readonly BookingId[]
  readonly faults: readonly PlanFault[]
}

export interface BookingContext {
  readonly floor: PlanFloor
  readonly workshop: WorkshopState
  readonly scale: TickScale
  /** By car that stands here: the first tick at which it could be moved out. */
  readonly movableFrom: (car: CarState) => number
}

type Booked = PlanCar['bookings'][number] & { readonly id: BookingId; readonly car: CarState }

/**
 * Bookings of bays for one car that are not over, `to` the end of the last day. One that clashes with an earlier one, or
 * with a car that stands in its bay now, is named and not kept.
 */
export function keepBookings(
  cars: readonly CarState[],
  taken: ReadonlyMap<CarId, number>,
  context: BookingContext,
): KeptBookings {
  const kept: Booked[] = []
  const faults: PlanFault[] = []
  for (const booking of cars.flatMap((car) => bookingsOf(car, context))) {
    const fault = standingFault(booking, cars, taken, context) ?? clashFault(booking, kept, context)
    if (fault === null) kept.push(booking)
    else faults.push(fault)
  }
  const own = (id: CarId): readonly Booked[] =>
    kept.filter(({ car }) => car.id === id).toSorted((a, b) => a.from - b.from)
  return {
    of: (id) => own(id).map(({ bay, from, to }) => ({ bay, from, to })),
    idsOf: (id) => own(id).map((booking) => booking.id),
    faults,
  }
}

/** A yard takes everyone: booking it pins nothing. */
function bookingsOf(car: CarState, { floor, scale }: BookingContext): readonly Booked[] {
  return [...car.bookings.values()].flatMap(({ id, bayId, from, to, cancelled }) => {
    const bay = floor.bayOf(bayId)
    if (cancelled !== null || to < scale.today || to < from) return []
    if (bay === null || floor.bays[bay]?.storage !== false) return []
    return [{ id, car, bay, from: Math.max(0, scale.dayStart(from)), to: scale.dayEnd(to) }]
  })
}

function standingFault(
  booking: Booked,
  cars: readonly CarState[],
  taken: ReadonlyMap<CarId, number>,
  context: BookingContext,
): PlanFault | null {
  const there = cars.find(({ id }) => taken.get(id) === booking.bay)
  if (there === undefined || there.id === booking.car.id) return null
  const bay = bayName(booking, context)
  if (booking.from <= 0)
    return pinsClash(
      booking,
      `${bay} is booked for ${booking.car.name} now, and ${there.name} stands in it.`,
      `Move ${there.name}, or change the booking.`,
    )
  if (booking.from >= context.movableFrom(there)) return null
  return pinsClash(
    booking,
    `${bay} is booked for ${booking.car.name} while ${there.name} stands in it, open and not braced, so that it cannot be moved.`,
    `Brace ${there.name}, or change the booking.`,
  )
}

function clashFault(booking: Booked, kept: readonly Booked[], context: BookingContext): PlanFault | null {
  const other = kept.find(
    (each) =>
      each.from < booking.to &&
      booking.from < each.to &&
      (each.bay === booking.bay || each.car === booking.car),
  )
  if (other === undefined) return null
  const words =
    other.car === booking.car
      ? `${booking.car.name} has two bookings for the same days: ${bayName(other, context)} and ${bayName(booking, context)}.`
      : `${bayName(booking, context)} is booked for ${other.car.name} and ${booking.car.name} on the same days.`
  return pinsClash(booking, words, 'Change or cancel one of the bookings.')
}

const bayName = ({ bay }: Booked, { floor, workshop }: BookingContext): string =>
  workshop.bays.get(floor.bayIds[bay] as BayId)?.name ?? 'A bay'

const pinsClash = ({ car }: Booked, words: string, next: string): PlanFault => ({
  code: 'pins clash',
  carId: car.id,
  words,
  next,
})
