import type { BayId, BookingId, CarId } from '../../domain/ids.ts'
import type { PlannedStay, WhatIf } from '../../domain/plan/plan.ts'
import { addDays, daysBetween } from '../../domain/time/local-date.ts'

/** A stay that is held in the hand: where it was, and where it would be put down. */
export interface PickedUp {
  readonly key: string
  readonly carId: CarId
  /** The booking that it keeps already, or the one that it becomes. */
  readonly bookingId: BookingId
  readonly isBooked: boolean
  readonly was: Place
  readonly place: Place
}

/** First and last local day, both inclusive. */
export interface Place {
  readonly bayId: BayId
  readonly from: string
  readonly to: string
}

/** @param newBooking the id that a stay without a booking is given */
export function pickUp(
  key: string,
  stay: PlannedStay,
  dateOf: (at: number) => string,
  newBooking: BookingId,
): PickedUp {
  const was = { bayId: stay.bayId, from: dateOf(stay.from), to: dateOf(stay.to - 1) }
  return {
    key,
    carId: stay.carId,
    bookingId: stay.bookingId ?? newBooking,
    isBooked: stay.bookingId !== null,
    was,
    place: was,
  }
}

/** Moved by whole days from where it was, into this bay; never to before `today` unless it began before. */
export function putAt(picked: PickedUp, bayId: BayId, days: number, today: string): PickedUp {
  const { was } = picked
  const earliest = was.from < today ? was.from : today
  const wanted = addDays(was.from, days)
  const from = wanted < earliest ? earliest : wanted
  return { ...picked, place: { bayId, from, to: addDays(from, daysBetween(was.from, was.to)) } }
}

/** Moved on by days and by bays from where it is held now; the outermost bays are the end. */
export function moveOn(
  picked: PickedUp,
  step: { readonly days: number; readonly bays: number },
  bays: readonly BayId[],
  today: string,
): PickedUp {
  const index = bays.indexOf(picked.place.bayId)
  const bayId = bays[Math.min(bays.length - 1, Math.max(0, index + step.bays))] ?? picked.place.bayId
  const days = daysBetween(picked.was.from, picked.place.from) + step.days
  return putAt(picked, bayId, days, today)
}

export const isWhereItWas = ({ was, place }: PickedUp): boolean =>
  was.bayId === place.bayId && was.from === place.from && was.to === place.to

export const toWhatIf = ({ carId, bookingId, place }: PickedUp): WhatIf => ({
  kind: 'booking',
  carId,
  bookingId,
  ...place,
})
