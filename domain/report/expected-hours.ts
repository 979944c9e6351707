import type { EstimateHistory } from '../estimate/estimate-history.ts'
import { visitBands } from '../views/hours-sheet-view.ts'
import { isChargedByHours, type TellingCar } from './telling.ts'
import type { ExpectedHours } from './week-expected.ts'

/**
 * What a visit takes as it stood at the end of the week; null where it is not charged by hours or nothing is left to guess.
 *
 * @param history of the repairs that were finished by then
 */
export function expectedHours(telling: TellingCar, history: EstimateHistory): ExpectedHours | null {
  if (!isChargedByHours(telling)) return null
  const { all, charged } = visitBands(telling.car, telling.visit, history, telling.context)
  return all === null ? null : { all, charged }
}
