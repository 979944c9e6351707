import type { CostKind } from '../facts/money-facts.ts'
import type { CostId, RepairId } from '../ids.ts'

/** Person-hours more, or less when negative. A band of several lines runs from the sum of the low to the sum of the high. */
export interface HoursBand {
  readonly low: number
  readonly likely: number
  readonly high: number
}

/** Amounts in minor units of the currency. */
export interface VariationCostView {
  readonly costId: CostId
  readonly kind: CostKind
  readonly name: string
  readonly asked: number
  /** What counts; 0 when it was asked for and not accepted. */
  readonly amount: number
}

/** Work on an assessed repair that its payer has not agreed to and is not asked for yet. */
export interface BeyondAgreed {
  readonly repairId: RepairId
  readonly name: string
  /** Likely person-hours; 0 when only a finding is new. */
  readonly hours: number
  readonly words: string
}
