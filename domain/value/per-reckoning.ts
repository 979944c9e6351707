import type { CarState } from '../car.ts'
import type { HoursContext } from './entry-hours.ts'
import { perRevision } from './per-revision.ts'

/**
 * Remembers what was reckoned of a car's hours until its next fact. While a clock runs on the car it is good for one
 * moment and one state of the workshop only; without one, neither plays a part, and `reckon` must use neither.
 */
export function perReckoning<T>(
  reckon: (car: CarState, context: HoursContext) => T,
): (car: CarState, context: HoursContext) => T {
  const slotOf = perRevision((): Slot<T> => ({ last: null }))
  return (car, context) => {
    const slot = slotOf(car)
    const { last } = slot
    const isSame = last?.at === context.at && last.workshop === context.workshop
    if (last !== null && (isSame || !hasRunningClock(car))) return last.value
    const value = reckon(car, context)
    slot.last = { at: context.at, workshop: context.workshop, value }
    return value
  }
}

interface Slot<T> {
  last: (HoursContext & { readonly value: T }) | null
}

const hasRunningClock = perRevision((car): boolean =>
  [...car.entries.values()].some(({ time, gone }) => time.kind === 'running' && gone === null),
)
