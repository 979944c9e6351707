import type { Moment } from '../car.ts'
import type { BayId, CarId, PersonId, PlanId, VisitId } from '../ids.ts'
import type { Plan, WhatIf } from '../plan/plan.ts'

/** What the Plan screen shows. */
export interface PlanView {
  readonly zone: string
  readonly now: Moment
  /** 'planning' while a newer plan than the one shown is being made. */
  readonly state: 'planning' | 'settled'
  /** What people were given; null before a first plan was taken. */
  readonly inForce: KeptPlan | null
  /** What the planner would do now; null when it is what is in force. */
  readonly proposal: (PlanComparison & { readonly planId: PlanId; readonly plan: Plan }) | null
  readonly bays: readonly PlanBayRow[]
  readonly people: readonly PlanPersonRow[]
  readonly cars: readonly PlanCarRow[]
  /** Local days from the first day shown to the last finish, with the workshop's working time. */
  readonly days: readonly PlanDay[]
}

export interface KeptPlan {
  readonly planId: PlanId
  readonly plan: Plan
  readonly takenAt: Moment
  readonly takenBy: string
}

export interface PlanBayRow {
  readonly bayId: BayId
  readonly name: string
  readonly kinds: readonly string[]
  readonly storage: boolean
}

export interface PlanPersonRow {
  readonly personId: PersonId
  readonly name: string
  readonly skills: readonly string[]
  /** Local dates within the days shown, both inclusive. */
  readonly off: readonly { readonly from: string; readonly to: string }[]
}

export interface PlanCarRow {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly name: string
  readonly shellNumber: string
  /** 0 to 11: which hatching tells the car apart; the same car keeps the same one. */
  readonly hatch: number
  readonly promised: string | null
  readonly priority: number
  /** By target key: 'Sill, left: welded', 'strip'. */
  readonly workNames: Readonly<Record<string, string>>
}

export interface PlanDay {
  readonly date: string
  readonly from: Moment
  readonly to: Moment
  readonly spans: readonly { readonly from: Moment; readonly to: Moment }[]
  readonly holiday: string | null
}

/** The same cars in two plans; `before` is what is in force or, without one, the plan as it would be. */
export interface PlanComparison {
  readonly cars: readonly CarComparison[]
  readonly movesBefore: number
  readonly movesAfter: number
  /** Work whose day or people differ. */
  readonly changes: number
}

export interface CarComparison {
  readonly carId: CarId
  readonly name: string
  readonly promised: string | null
  readonly finishBefore: Moment | null
  readonly finishAfter: Moment | null
  /** Finish not exceeded with 80 %. */
  readonly finish80Before: Moment | null
  readonly finish80After: Moment | null
  /** Local days of the 80 % finish after the promised date, of the mean one where not both are known; 0 when on time. */
  readonly daysLateBefore: number
  readonly daysLateAfter: number
}

export interface WhatIfAnswer extends PlanComparison {
  readonly whatIfs: readonly WhatIf[]
  readonly plan: Plan
  /** Why it cannot be tried, or null. */
  readonly words: string
}

/** One kept plan in the history of a car. */
export interface PlanHistoryRow {
  readonly planId: PlanId
  readonly keptAt: Moment
  readonly why: 'taken' | 'day end' | 'moved'
  readonly cause: string
  readonly finish50: Moment | null
  readonly finish80: Moment | null
}
