import type { CarState } from '../../car.ts'
import { FEW_FIXTURES } from '../../facts/plan-facts.ts'
import type { BookingId, CarId } from '../../ids.ts'
import { loadBearingOpen } from '../../rules/standing.ts'
import { endOfWorkingDay } from '../../time/calendar.ts'
import type { PlanFault } from '../plan.ts'
import type { PlanInput } from '../plan-input.ts'
import type { PlanCar } from '../problem.ts'
import { keepBookings } from './bookings.ts'
import { openGates } from './draft-work.ts'
import { arrivalOf } from './earliest.ts'
import type { PlanFloor } from './floor-bays.ts'
import { openUntil } from './open-until.ts'
import type { TickScale } from './tick-scale.ts'

/** Where the cars stand, when they come and what is booked for them. */
export interface PlacedCars {
  readonly cars: readonly PlanCar[]
  readonly bookingIds: readonly (readonly BookingId[])[]
  readonly faults: readonly PlanFault[]
}

/** Lateness of an urgent car counts twice, of the most urgent four times. */
const WEIGHTS = [1, 1, 2, 4] as const

/** The planned cars first, then those that only have bays booked. */
export function placeCars(
  planned: readonly CarState[],
  booked: readonly CarState[],
  floor: PlanFloor,
  input: PlanInput,
  scale: TickScale,
): PlacedCars {
  const taken = takenBays(planned, floor)
  const kept = keepBookings([...planned, ...booked], taken, {
    floor,
    workshop: input.workshop,
    scale,
    movableFrom: (car) => (isBraced(car) ? 0 : openUntil(car, input, scale)),
  })
  return {
    cars: [
      ...planned.map((car) => ({ ...planCar(car, taken, scale), bookings: kept.of(car.id) })),
      ...booked.map((car) => ({ ...NO_WORK, bookings: kept.of(car.id) })),
    ],
    bookingIds: [...planned, ...booked].map(({ id }) => kept.idsOf(id)),
    faults: kept.faults,
  }
}

const NO_WORK = { due: null, weight: 1, bay: null, arrives: 0, braced: true }

function planCar(
  car: CarState,
  taken: ReadonlyMap<CarId, number>,
  scale: TickScale,
): Omit<PlanCar, 'bookings'> {
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  const promised = visit?.promised ?? null
  return {
    due: promised === null ? null : dueTick(promised, scale),
    weight: WEIGHTS[visit?.priority ?? 1] ?? 1,
    bay: taken.get(car.id) ?? null,
    arrives: Math.max(0, arrivalOf(car, scale)?.tick ?? 0),
    braced: isBraced(car),
  }
}

/** When work ends on the promised date; on a day off, the end of that day. */
function dueTick(date: string, { calendar, from, dayEnd }: TickScale): number {
  const end = endOfWorkingDay(calendar, date)
  return end === null ? dayEnd(date) : from(end)
}

/** By car: the bay it stands in. A second car in a bay for one, or one in a bay that is given up, has yet to be brought in. */
function takenBays(cars: readonly CarState[], { bayOf, bays }: PlanFloor): ReadonlyMap<CarId, number> {
  const taken = new Map<CarId, number>()
  const full = new Set<number>()
  for (const { id, standing } of cars) {
    const bay = standing === null ? null : bayOf(standing.bayId)
    if (bay === null || full.has(bay)) continue
    taken.set(id, bay)
    if (bays[bay]?.storage === false) full.add(bay)
  }
  return taken
}

/**
 * A shell may move while a side stands open when it is braced or on a fixture. One that is closed is braced before any
 * side of it is opened where opening asks for that, and stands on its fixture where one is planned.
 */
function isBraced(car: CarState): boolean {
  if (car.safety.bracing || FEW_FIXTURES.some((fixture) => fixture === car.standing?.fixture)) return true
  if (loadBearingOpen(car).length > 0) return false
  if (car.fixturePlanned !== null) return true
  return [...car.repairs.values()]
    .filter(({ plan }) => plan.loadBearing && plan.on === 'shell')
    .filter((repair) => openGates(repair).includes('opened'))
    .every(({ plan }) => plan.gates.opened.asks.safety)
}
