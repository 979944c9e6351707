import type { ReworkCause } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'
import type { CarId, PersonId, TypeId, VisitId } from '../ids.ts'

/** What a row's hours are grouped by: plain text or null, so that a table can hold it. */
export interface VarianceLabels {
  readonly carId: CarId
  readonly visitId: VisitId
  /** Key of the gate or task. */
  readonly target: string
  /** 'tasks' for work that belongs to no repair. */
  readonly type: TypeId | 'no type' | 'tasks'
  readonly gate: Gate | 'tasks'
  /** Side and place on the shell, like 'left rear'. */
  readonly zone: string
  /** Null for work that nobody has done yet. */
  readonly person: PersonId | null
  /** Local month, YYYY-MM; null for what is still to be accepted or done. */
  readonly month: string | null
  /** Of rework; null for all other hours. */
  readonly cause: ReworkCause | 'not stated' | null
}

/** Person-hours. Every figure of a sum is the sum of that figure. */
export interface VarianceFigures {
  readonly baseline: number
  readonly authorised: number
  readonly waiting: number
  readonly earned: number
  readonly spent: number
  /** The part of spent on gates and tasks that are still open: it has earned nothing yet. */
  readonly spentOnOpen: number
  /** At completion of the authorised work: spent and what is left. */
  readonly expected: number
  readonly rework: number
  readonly givenBack: number
  /** Spent on a gate between the release of a hold on it and its passing. */
  readonly onReleased: number
  /** PV: planned to be done by now. */
  readonly planned: number
  /** The part of earned that has a planned value: schedule figures compare like with like. */
  readonly earnedOfPlanned: number
}

/**
 * Hours that move at one place in every grouping at once, so that all groupings add up to the same. Figures that are not
 * named are 0: a car has a thousand rows with one or two.
 */
export interface VarianceRow {
  readonly labels: VarianceLabels
  readonly figures: Partial<VarianceFigures>
}

export const VARIANCE_FIGURES = [
  'baseline',
  'authorised',
  'waiting',
  'earned',
  'spent',
  'spentOnOpen',
  'expected',
  'rework',
  'givenBack',
  'onReleased',
  'planned',
  'earnedOfPlanned',
] as const satisfies readonly (keyof VarianceFigures)[]

export const noFigures: VarianceFigures = {
  baseline: 0,
  authorised: 0,
  waiting: 0,
  earned: 0,
  spent: 0,
  spentOnOpen: 0,
  expected: 0,
  rework: 0,
  givenBack: 0,
  onReleased: 0,
  planned: 0,
  earnedOfPlanned: 0,
}

export type FiguresDraft = { -readonly [Figure in keyof VarianceFigures]: VarianceFigures[Figure] }

export function addInto(sum: FiguresDraft, part: Partial<VarianceFigures>): void {
  for (const figure in part)
    sum[figure as keyof VarianceFigures] += part[figure as keyof VarianceFigures] ?? 0
}
