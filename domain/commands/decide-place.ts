import { fact } from '../facts.ts'
import type { BayId, BookingId } from '../ids.ts'
import { refuse } from '../refusal.ts'
import { isDone, loadBearingOpen, openAway } from '../rules/standing.ts'
import { bayWords } from '../text/bay-words.ts'
import { dateRangeWords } from '../text/words.ts'
import { localYearOf } from '../time/zone.ts'
import { isStorage } from '../workshop.ts'
import type { DecideContext, OtherBooking } from './decide.ts'
import {
  firstRefusal,
  onCar,
  record,
  refuseIf,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'

type PlaceKind = 'bookBay' | 'changeBooking' | 'cancelBooking' | 'moveShell' | 'sendAway' | 'bringBack'

export const placeDeciders: { readonly [K in PlaceKind]: Decider<K> } = {
  bookBay: onCar(
    (payload, context) =>
      firstRefusal(
        refuseIf(
          context.car.bookings.has(payload.bookingId),
          'already',
          'This booking is known already.',
          'Nothing to do.',
        ),
        bookingRefusal(payload, context),
      ) ?? record(fact('bayBooked', payload)),
  ),

  changeBooking: onCar(
    (payload, context) =>
      firstRefusal(standingBooking(context, payload.bookingId), bookingRefusal(payload, context)) ??
      record(fact('bookingChanged', payload)),
  ),

  cancelBooking: onCar(
    (payload, context) =>
      standingBooking(context, payload.bookingId) ?? record(fact('bookingCancelled', payload)),
  ),

  moveShell: onCar(
    (payload, context) =>
      firstRefusal(
        refuseIf(openAway(context.car) !== null, 'not-now', 'The shell is away.', 'Bring it back instead.'),
        placeRefusal(payload.bayId, context),
        cutOpenRefusal(context, payload.fixture),
      ) ?? record(fact('shellMoved', payload)),
  ),

  sendAway: onCar((payload, context) => {
    const firm = context.workshop.parties.get(payload.firmId)
    return (
      firstRefusal(
        refuseIf(
          openAway(context.car) !== null,
          'already',
          'The shell is away already.',
          'Bring it back first.',
        ),
        refuseIf(
          firm?.kind !== 'firm' || context.workshop.erased.has(firm.id),
          'unknown',
          'The firm is not known.',
          'Add the firm first.',
        ),
        refuseIf(
          payload.expected < payload.from,
          'bad-input',
          'It would come back before it goes.',
          'Correct the dates.',
        ),
        cutOpenRefusal(context, null),
      ) ?? record(fact('shellSentAway', payload))
    )
  }),

  bringBack: onCar((payload, context) => {
    const { car } = context
    return (
      firstRefusal(
        refuseIf(
          openAway(car)?.id !== payload.awayId,
          'unknown',
          'The shell is not away.',
          'Reload the car.',
        ),
        placeRefusal(payload.bayId, context),
        refuseIf(
          payload.tookBack.some(({ repairId, gate }) => {
            const repair = car.repairs.get(repairId)
            return !repair || !isDone(repair, gate)
          }),
          'not-now',
          'A gate that was taken back is not done.',
          'Choose only gates that were done before the shell went away.',
        ),
      ) ?? record(fact('shellReturned', payload))
    )
  }),
}

const standingBooking = ({ car }: CarContext, id: BookingId): Refused | null => {
  const booking = car.bookings.get(id)
  return refuseIf(
    !booking || booking.cancelled !== null,
    'unknown',
    'This booking does not stand any more.',
    'Reload the screen.',
  )
}

const knownBay = ({ workshop }: DecideContext, id: BayId): Refused | null =>
  refuseIf(!workshop.bays.get(id)?.active, 'unknown', 'This bay is not known.', 'Choose a bay from the list.')

const bookingRefusal = (booking: Omit<OtherBooking, 'carId'>, context: CarContext): Refused | null => {
  const bay = context.workshop.bays.get(booking.bayId)
  const meets = context.others.bookings.filter(
    (other) => other.bookingId !== booking.bookingId && other.from <= booking.to && booking.from <= other.to,
  )
  const inBay = bay && !isStorage(bay) ? meets.find((other) => other.bayId === booking.bayId) : undefined
  const ownElsewhere = meets.find((other) => other.carId === context.car.id && other.bayId !== booking.bayId)
  return firstRefusal(
    knownBay(context, booking.bayId),
    refuseIf(
      booking.to < booking.from,
      'bad-input',
      'The booking ends before it starts.',
      'Correct the dates.',
    ),
    inBay ? clash(inBay, context) : null,
    ownElsewhere ? clash(ownElsewhere, context) : null,
  )
}

const clash = (other: OtherBooking, { others, workshop, now }: CarContext): Refused => {
  const car = others.carNames.get(other.carId) ?? 'Another car'
  const bay = workshop.bays.get(other.bayId)
  const dates = dateRangeWords(other.from, other.to, localYearOf(now, workshop.zone))
  return refuse(
    'clash',
    `${car} is in ${bay === undefined ? 'a bay' : bayWords(bay.name)} ${dates}.`,
    'Choose other dates or another bay, or change that booking.',
  )
}

const placeRefusal = (bayId: BayId, context: CarContext): Refused | null => {
  const { others, workshop, car } = context
  const bay = workshop.bays.get(bayId)
  const there = [...others.standing].find(([carId, standsIn]) => standsIn === bayId && carId !== car.id)
  return firstRefusal(
    knownBay(context, bayId),
    refuseIf(
      bay !== undefined && !isStorage(bay) && there !== undefined,
      'clash',
      `${(there && others.carNames.get(there[0])) ?? 'Another car'} stands in ${bayWords(bay?.name ?? '')}.`,
      'Move that car first, or choose another bay.',
    ),
  )
}

const FIXED = new Set<string>(['jig', 'rotisserie', 'dolly'])

/** A shell cut open moves only when braced or on a fixture. */
const cutOpenRefusal = ({ car }: CarContext, fixture: string | null): Refused | null => {
  const open = loadBearingOpen(car)[0]
  const held = car.safety.bracing || FIXED.has(car.standing?.fixture ?? '') || FIXED.has(fixture ?? '')
  return refuseIf(
    open !== undefined && !held,
    'not-now',
    `${open?.plan.name} stands open and the shell is neither braced nor on a fixture.`,
    'Brace it or put it on a jig, rotisserie or dolly before it is moved.',
  )
}
