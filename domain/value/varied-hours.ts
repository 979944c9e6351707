import type { CarState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { VisitId } from '../ids.ts'
import { targetKey } from './target.ts'

/**
 * Person-hours that variations have added to a gate or task in a visit, or taken from it: those accepted, or paid by the
 * workshop.
 */
export function variedHours(car: CarState, visitId: VisitId | null, target: WorkTarget): number {
  const key = targetKey(target)
  let hours = 0
  for (const { visitId: of, status, lines } of car.variations.values()) {
    if (of !== visitId || (status !== 'accepted' && status !== 'workshop pays')) continue
    for (const line of lines) if (targetKey(line.target) === key) hours += line.hours
  }
  return hours
}
