import type { Moment } from '../car.ts'
import type { CarId } from '../ids.ts'
import { daysBetween } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'
import type { CarComparison, PlanComparison } from '../views/plan-view-shapes.ts'
import { changedWork } from './plan-changes.ts'
import type { Plan, PlannedCar } from './plan.ts'

export interface ComparedBy {
  readonly nameOf: (car: CarId) => string
  /** IANA zone of the local days. */
  readonly zone: string
}

/** Every car of either plan, in the order of the later one; without an earlier plan nothing has changed yet. */
export function comparePlans(before: Plan | null, after: Plan, by: ComparedBy): PlanComparison {
  const earlier = new Map(before?.cars.map((car) => [car.carId, car]))
  const later = new Set(after.cars.map(({ carId }) => carId))
  const gone = (before?.cars ?? []).filter(({ carId }) => !later.has(carId))
  return {
    cars: [
      ...after.cars.map((car) => compareCar(earlier.get(car.carId) ?? null, car, by)),
      ...gone.map((car) => compareCar(car, null, by)),
    ],
    movesBefore: before?.moves.length ?? 0,
    movesAfter: after.moves.length,
    changes: before === null ? 0 : changedWork(before, after, by.zone).length,
  }
}

function compareCar(before: PlannedCar | null, after: PlannedCar | null, by: ComparedBy): CarComparison {
  const { carId, promised } = (after ?? before) as PlannedCar
  // Both by the same measure: sure finishes against mean ones would look like a slip.
  const isSure = [before, after].every((car) => car === null || car.finish80 !== null)
  const late = (car: PlannedCar | null) =>
    car === null ? 0 : daysLate(promised, isSure ? car.finish80 : car.finish, by.zone)
  return {
    carId,
    name: by.nameOf(carId),
    promised,
    finishBefore: before?.finish ?? null,
    finishAfter: after?.finish ?? null,
    finish80Before: before?.finish80 ?? null,
    finish80After: after?.finish80 ?? null,
    daysLateBefore: late(before),
    daysLateAfter: late(after),
  }
}

function daysLate(promised: string | null, finish: Moment | null, zone: string): number {
  if (promised === null || finish === null) return 0
  return Math.max(0, daysBetween(promised, finishDate(finish, zone)))
}

/** Work that ends at midnight ends on the day before it. */
const finishDate = (finish: Moment, zone: string): string => localDateOf(finish - 1, zone)
