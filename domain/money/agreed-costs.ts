import type { CarState, VisitState } from '../car.ts'
import type { CostKind } from '../facts/money-facts.ts'
import type { Payer } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { CostId, RepairId } from '../ids.ts'
import { localDateOf } from '../time/zone.ts'
import { targetKey, targetStanding } from '../value/target.ts'
import { variationStanding } from './agreed-hours.ts'
import { isOver } from '../visit-over.ts'

/** A money line of the estimate or of a variation, with what was spent on it. Amounts in minor units. */
export interface AgreedCost {
  readonly costId: CostId
  readonly repairId: RepairId | null
  readonly kind: CostKind
  readonly name: string
  readonly payer: Payer
  readonly amount: number
  /** The first amount of a line of the estimate, for ever; 0 for one of a variation. */
  readonly baseline: number
  /** Local date of the agreement; null while it waits. */
  readonly agreed: string | null
  /** Its payer has agreed to it once, at whatever amount. */
  readonly wasAccepted: boolean
  /** The variation that asks for it; null for the estimate. */
  readonly variation: string | null
  /** By whoever pays for it. */
  readonly spent: number
  readonly end: CostEnd
}

/**
 * Whether more may still be spent on a cost: 'finished' once its repair is, or the visit when it is for the whole car;
 * 'left' when its repair was retired or closed as found.
 */
export type CostEnd = 'open' | 'finished' | 'left'

/** The costs of a visit's estimate in the order in which they came, then those of its variations. */
export function agreedCosts(car: CarState, visit: VisitState, zone: string): readonly AgreedCost[] {
  const spent = new Map<CostId, number>()
  for (const { costId, amount, visitId } of car.spendings.values())
    if (costId !== null && visitId === visit.id) spent.set(costId, (spent.get(costId) ?? 0) + amount)
  const standing = (costId: CostId, repairId: RepairId | null) => ({
    spent: spent.get(costId) ?? 0,
    end: costEnd(car, visit, repairId),
  })
  const own = [...visit.costs.values()].map(({ accepted, ...cost }) => ({
    ...cost,
    agreed: accepted === null ? null : localDateOf(accepted.happened, zone),
    variation: null,
    ...standing(cost.costId, cost.repairId),
  }))
  const varied = [...car.variations.values()].flatMap((variation): readonly AgreedCost[] => {
    const decided = variation.visitId === visit.id ? variationStanding(variation, zone) : null
    if (decided === null) return []
    return variation.costs.map((cost) => ({
      ...cost,
      ...decided,
      baseline: 0,
      wasAccepted: decided.agreed !== null,
      variation: variation.title,
      ...standing(cost.costId, cost.repairId),
    }))
  })
  return [...own, ...varied]
}

/** Of a visit that another one followed, as its work stood then. */
function costEnd(car: CarState, visit: VisitState, repairId: RepairId | null): CostEnd {
  if (repairId === null)
    return visit.left !== null || visit.status === 'finished' || isOver(visit) ? 'finished' : 'open'
  const standings = GATES.map((gate) => {
    const target = { kind: 'gate', repairId, gate } as const
    return visit.left === null ? targetStanding(car, target) : (visit.left.get(targetKey(target)) ?? 'open')
  })
  if (standings.some((each) => each === 'retired' || each === 'as found')) return 'left'
  return standings.includes('open') ? 'open' : 'finished'
}
