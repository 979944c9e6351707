import type { CarState, RepairState } from '../car.ts'
import { eachGate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { activeRepairs, isDone } from '../rules/standing.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import type { EstimateHistory } from './estimate-history.ts'
import { hiddenMultipliers, repairBand, type RepairToEstimate } from './repair-band.ts'
import { repairToEstimate } from './repair-to-estimate.ts'
import type { ScoreTable } from './score-table.ts'

/**
 * By repair that is not assessed: what its gates after assessed take as multiples of their estimate, so that the planner
 * draws them from what the estimate says. Repairs of `like` are to be repaired once more on another car: those of them that
 * are assessed are told as if they had not been begun.
 */
export function hiddenMultiples(
  cars: readonly CarState[],
  like: ReadonlySet<CarState['id']>,
  history: EstimateHistory,
  context: HoursContext,
): ReadonlyMap<RepairId, ScoreTable> {
  return new Map(
    cars.flatMap((car) =>
      activeRepairs(car).flatMap((repair) => {
        const isKnown = isDone(repair, 'assessed') || repair.closedAsFound !== null
        if (isKnown && !like.has(car.id)) return []
        const table = multiplesOf(car, repair, isKnown, history, context)
        return table === null ? [] : [[repair.id, table] as const]
      }),
    ),
  )
}

function multiplesOf(
  car: CarState,
  repair: RepairState,
  isKnown: boolean,
  history: EstimateHistory,
  context: HoursContext,
): ScoreTable | null {
  // Only the figures are taken, so it needs no name among its like.
  const stands = repairToEstimate(car, repair, '', context)
  const band = repairBand(history, isKnown ? asUnbegun(stands) : stands)
  return band && hiddenMultipliers(band)
}

function asUnbegun(repair: RepairToEstimate): RepairToEstimate {
  const gates = eachGate((gate) => ({ ...repair.gates[gate], isDone: false, spent: 0, rework: 0 }))
  return { ...repair, worstHidden: null, gates }
}
