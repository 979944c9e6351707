import type { CarDraft, Stamp } from '../car.ts'
import type { Fact, PayloadOf } from '../facts.ts'
import { reopenGate } from './apply-work.ts'

/** Bookings, moves, and work done away. */
export const applyPlaceFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'bayBooked': {
      const { bookingId, bayId, from, to } = fact.payload
      car.bookings.set(bookingId, { id: bookingId, bayId, from, to, cancelled: null, stamp })
      return
    }
    case 'bookingChanged': {
      const { bookingId, bayId, from, to } = fact.payload
      Object.assign(car.bookings.get(bookingId) ?? {}, { bayId, from, to })
      return
    }
    case 'bookingCancelled': {
      const booking = car.bookings.get(fact.payload.bookingId)
      if (booking) booking.cancelled = stamp
      return
    }
    case 'shellMoved':
      return moveShell(car, fact.payload, stamp)
    case 'shellSentAway': {
      const { awayId, ...away } = fact.payload
      car.aways.set(awayId, { id: awayId, ...away, sent: stamp, returned: null })
      car.standing = null
      endLifts(car, stamp)
      return
    }
    case 'shellReturned': {
      const { awayId, bayId, fixture, tookBack, uncovered, reason } = fact.payload
      const away = car.aways.get(awayId)
      if (away) away.returned = { ...stamp, uncovered }
      moveShell(car, { bayId, fixture }, stamp)
      for (const { repairId, gate } of tookBack)
        reopenGate(car, repairId, gate, { stamp, cause: 'away', reason })
      return
    }
    default:
      return
  }
}

const moveShell = (
  car: CarDraft,
  { bayId, fixture }: Pick<PayloadOf<'shellMoved'>, 'bayId' | 'fixture'>,
  stamp: Stamp,
): void => {
  car.standing = { bayId, fixture, since: stamp.happened }
  endLifts(car, stamp)
}

const endLifts = (car: CarDraft, stamp: Stamp): void => {
  for (const lift of car.lifts.values()) lift.ended ??= stamp
}
