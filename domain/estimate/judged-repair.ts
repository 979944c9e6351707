import type { CarState, RepairState } from '../car.ts'
import type { BandsWhen, StatedBand } from '../facts/agreement-facts.ts'
import { workshopFromFacts } from '../state/workshop-state.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { type FinishedRepair, finishedRepairs } from './finished-repair.ts'

/** A finished repair with what was said of its hours before it was opened and once it was assessed; null where nothing was. */
export interface JudgedRepair extends FinishedRepair {
  readonly stated: Readonly<Record<BandsWhen, StatedBand | null>>
}

/** The finished repairs of a car, in the order of finishing. The same at every moment: a running clock counts once stopped. */
export function judgedRepairs(car: CarState): readonly JudgedRepair[] {
  return finishedRepairs(car, BEFORE_ALL_CLOCKS).map((finished) => {
    const stated = car.repairs.get(finished.repairId)?.stated ?? []
    const last = (when: BandsWhen): StatedBand | null => lastBefore(stated, when, finished.finished.number)
    return { ...finished, stated: { accepted: last('accepted'), assessed: last('assessed') } }
  })
}

const BEFORE_ALL_CLOCKS: HoursContext = { at: 0, workshop: workshopFromFacts([]) }

/** What is said once a repair is finished, as under a warranty, was not said of that work. */
function lastBefore(stated: RepairState['stated'], when: BandsWhen, number: number): StatedBand | null {
  return stated.findLast((each) => each.when === when && each.number < number)?.band ?? null
}
