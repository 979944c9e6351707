import type { CarState, VariationStatus } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { VisitId } from '../ids.ts'
import { targetKey } from './target.ts'

/** Somebody pays for it: its payer, or the workshop after it was declined. */
export const isAgreed = (status: VariationStatus): boolean =>
  status === 'accepted' || status === 'workshop pays'

/**
 * Person-hours that variations have added to a gate or task in a visit, or taken from it: those that are agreed.
 */
export function variedHours(car: CarState, visitId: VisitId | null, target: WorkTarget): number {
  const key = targetKey(target)
  let hours = 0
  for (const { visitId: of, status, lines } of car.variations.values()) {
    if (of !== visitId || !isAgreed(status)) continue
    for (const line of lines) if (targetKey(line.target) === key) hours += line.hours
  }
  return hours
}
