import type { CarState, Moment } from '../car.ts'
import type { ScoreTable } from '../estimate/score-table.ts'
import type { PersonId, RepairId } from '../ids.ts'
import type { WorkshopState } from '../workshop.ts'
import type { Plan } from './plan.ts'

/** All that a plan is made from. */
export interface PlanInput {
  readonly workshop: WorkshopState
  /** Every car, planned or not: those that are not in work may have bays booked. */
  readonly cars: readonly CarState[]
  /** Names of people as the contact book has them. */
  readonly nameOf: (personId: PersonId) => string
  readonly now: Moment
  /** What people were given; null before a first plan was taken. */
  readonly inForce: Plan | null
  /**
   * What the gates after assessed of a repair that is not assessed take as multiples of their estimate, learned from finished
   * repairs. One that is not among them is drawn by the usual multiples.
   */
  readonly hidden: ReadonlyMap<RepairId, ScoreTable>
}
