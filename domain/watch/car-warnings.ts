import type { CarState } from '../car.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { targetKey } from '../value/target.ts'
import { hoursAfterEnd } from './after-end.ts'
import { carClocksPastDay } from './clocks.ts'
import { notAuthorised } from './not-authorised.ts'
import { overAuthorised } from './over-authorised.ts'
import { overruns } from './overruns.ts'
import { byWorst, type Warning } from './warning.ts'
import { isOver } from '../visit-over.ts'

/**
 * All that somebody should look at on a car, worst first, each once. They are worked out from where the car stands, so each
 * ends with its cause. Only clocks outlast the delivery of a car; what is still to come is judged while it is in work.
 */
export function carWarnings(car: CarState, context: HoursContext): readonly Warning[] {
  const clocks = carClocksPastDay(car, context)
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  if (visit === undefined || isOver(visit)) return clocks
  const unagreed = notAuthorised(car, visit, context)
  const warnings: readonly Warning[] = [...unagreed, ...clocks, ...hoursAfterEnd(car, visit, context)]
  if (visit.status !== 'in work') return warnings.toSorted(byWorst)
  const told = new Map(unagreed.map(({ target, hours }) => [targetKey(target), hours] as const))
  const bare = new Set(
    unagreed.flatMap(({ target, why }) => (why.is === 'not estimated' ? [targetKey(target)] : [])),
  )
  return [
    ...warnings,
    ...overAuthorised(car, visit, context, told),
    ...overruns(car, visit, context, ({ target }) => !bare.has(targetKey(target))),
  ].toSorted(byWorst)
}
