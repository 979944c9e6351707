import type { Moment } from '../car.ts'
import type { CarId } from '../ids.ts'
import { localDateOf, MS_PER_HOUR } from '../time/zone.ts'
import { targetKey } from '../value/target.ts'
import type { Plan, PlannedWork } from './plan.ts'

/** Work that an earlier plan has otherwise: on another local day, with other people, or not at all. */
export interface WorkChange {
  /** Null for work that the earlier plan does not have. */
  readonly before: PlannedWork | null
  readonly after: PlannedWork
}

/**
 * What of the later plan differs from the earlier one. What is done meanwhile is no change, and neither is begun work
 * that goes on with the same people.
 *
 * @param zone IANA zone of the local days
 */
export function changedWork(before: Plan, after: Plan, zone: string): readonly WorkChange[] {
  const earlier = new Map(before.work.map((work) => [keyOf(work), work]))
  const dayOf = (work: PlannedWork): string => localDateOf(work.start, zone)
  return after.work
    .map((work) => ({ before: earlier.get(keyOf(work)) ?? null, after: work }))
    .filter((change) => {
      const { before: was, after: is } = change
      return was === null || !isSameCrew(was, is) || (!is.begun && dayOf(was) !== dayOf(is))
    })
}

/**
 * Whether a change touches what people were given for the frozen days. Work that nobody began in its time has to move,
 * so that does not.
 *
 * @param now and `frozenEnd`: the frozen days, from now up to, not including, the end of their last one
 */
export function isWithinFrozenDays({ before, after }: WorkChange, now: Moment, frozenEnd: Moment): boolean {
  if (before !== null && before.start < now && isSameCrew(before, after)) return false
  return after.start < frozenEnd || (before !== null && before.start < frozenEnd)
}

/** A car's finish that is not exceeded with 50 and with 80 %. */
export interface CarFinish {
  readonly carId: CarId
  readonly finish50: Moment | null
  readonly finish80: Moment | null
}

/** The cars of both whose finish at 50 % or at 80 % has moved by a day of 24 hours or more, or came or went. */
export function movedCars(before: readonly CarFinish[], after: readonly CarFinish[]): readonly CarId[] {
  const earlier = new Map(before.map((car) => [car.carId, car]))
  return after.flatMap((car) => {
    const was = earlier.get(car.carId)
    if (was === undefined) return []
    return isMoved(was.finish50, car.finish50) || isMoved(was.finish80, car.finish80) ? [car.carId] : []
  })
}

function isMoved(before: Moment | null, after: Moment | null): boolean {
  if (before === null || after === null) return before !== after
  return Math.abs(after - before) >= 24 * MS_PER_HOUR
}

/** Whether two plans ask the same of people and bays, and promise the same days. */
export function isSamePlan(before: Plan, after: Plan, zone: string): boolean {
  if (before.cars.length !== after.cars.length || movedCars(before.cars, after.cars).length > 0) return false
  return changedWork(before, after, zone).length === 0 && before.moves.length === after.moves.length
}

const keyOf = ({ visitId, target }: PlannedWork): string => `${visitId} ${targetKey(target)}`

const isSameCrew = (a: PlannedWork, b: PlannedWork): boolean =>
  a.people.length === b.people.length && a.people.every((person) => b.people.includes(person))
