import type { BookingId, BayId } from '../../ids.ts'
import { ok, refuse, type Result } from '../../refusal.ts'
import { givenPeopleRefusal } from '../../rules/given-people.ts'
import { targetKey, targetStanding } from '../../value/target.ts'
import { targetWords } from '../../views/work-words.ts'
import { isStorage } from '../../workshop.ts'
import type { PlanInput } from '../plan-input.ts'
import {
  dayRefusal,
  daysRefusal,
  findCar,
  type Refused,
  unknown,
  type WhatIfOf,
  withCar,
} from './refusals.ts'

/** A part comes on that day and not before. */
export function partLate(
  input: PlanInput,
  { carId, partId, expected }: WhatIfOf<'part late'>,
): Result<PlanInput> {
  const car = findCar(input, carId)
  const part = [...(car?.parts.values() ?? [])].find(({ id }) => id === partId)
  if (car === undefined || part === undefined) return unknown('part')
  if (part.state === 'received' || part.state === 'checked' || part.state === 'fitted')
    return refuse('already', `${part.name} is here already.`, 'Choose a part that is still to come.')
  const parts = new Map(car.parts).set(part.id, { ...part, state: 'ordered', expected })
  return dayRefusal(input, expected) ?? ok(withCar(input, { ...car, parts }))
}

/** A booking is somewhere else or on other days; one that is not known yet is made. */
export function bookedElsewhere(input: PlanInput, whatIf: WhatIfOf<'booking'>): Result<PlanInput> {
  const { carId, bookingId, bayId, from, to } = whatIf
  const car = findCar(input, carId)
  if (car === undefined) return unknown('car')
  const stamp = { number: car.revision, by: null, happened: input.now, recorded: input.now }
  const booking = car.bookings.get(bookingId) ?? { id: bookingId, cancelled: null, stamp }
  if (booking.cancelled !== null) return unknown('booking')
  const bookings = new Map(car.bookings).set(bookingId, { ...booking, bayId, from, to })
  return (
    daysRefusal(input, from, to) ??
    bayRefusal(input, bayId) ??
    clashRefusal(input, whatIf) ??
    ok(withCar(input, { ...car, bookings }))
  )
}

const bayRefusal = ({ workshop }: PlanInput, bayId: BayId): Refused | null =>
  workshop.bays.get(bayId)?.active === true ? null : unknown('bay')

/** A bay takes one car at a time, and a car is in one bay at a time. */
function clashRefusal(
  input: PlanInput,
  { carId, bookingId, bayId, from, to }: WhatIfOf<'booking'>,
): Refused | null {
  const bay = input.workshop.bays.get(bayId)
  const clash = standingBookings(input, bookingId).find(
    (other) =>
      other.from <= to &&
      from <= other.to &&
      (other.carId === carId || (other.bayId === bayId && bay !== undefined && !isStorage(bay))),
  )
  if (clash === undefined) return null
  const place = input.workshop.bays.get(clash.bayId)?.name ?? 'a bay'
  return refuse(
    'clash',
    `${clash.name} is booked into ${place} on these days.`,
    'Choose other dates or another bay, or change that booking.',
  )
}

const standingBookings = ({ cars }: PlanInput, except: BookingId) =>
  cars.flatMap(({ id, name, bookings }) =>
    [...bookings.values()]
      .filter((each) => each.cancelled === null && each.id !== except)
      .map(({ bayId, from, to }) => ({ carId: id, name, bayId, from, to })),
  )

/** Work is given to somebody who could be given it, or put on a day; what was pinned before goes. */
export function pinned(input: PlanInput, { carId, target, people, day }: WhatIfOf<'pin'>): Result<PlanInput> {
  const car = findCar(input, carId)
  if (car === undefined) return unknown('car')
  const plan =
    target.kind === 'gate'
      ? car.repairs.get(target.repairId)?.plan.gates[target.gate]
      : car.tasks.get(target.taskId)?.plan
  if (plan === undefined) return unknown('work')
  if (targetStanding(car, target) !== 'open')
    return refuse(
      'not-now',
      `${targetWords(car, target)} is done already.`,
      'Choose work that is still to do.',
    )
  const { skill, people: most } = plan
  const givenTo = { name: targetWords(car, target), skill, people: most }
  const stamp = { number: car.revision, by: null, happened: input.now, recorded: input.now }
  const pins = new Map(car.pins).set(targetKey(target), { target, people, day, stamp })
  return (
    givenPeopleRefusal(input.workshop, people, givenTo) ??
    (day === null ? null : dayRefusal(input, day)) ??
    ok(withCar(input, { ...car, pins }))
  )
}
