import type { CarState } from '../car.ts'

/**
 * Remembers what was worked out from a car until its next fact. Cars are advanced in place, so the revision is part of
 * the key.
 */
export function perRevision<T>(workOut: (car: CarState) => T): (car: CarState) => T {
  const known = new WeakMap<CarState, { readonly revision: number; readonly value: T }>()
  return (car) => {
    const last = known.get(car)
    if (last?.revision === car.revision) return last.value
    const value = workOut(car)
    known.set(car, { revision: car.revision, value })
    return value
  }
}
