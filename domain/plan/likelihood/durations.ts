import type { ThreePoint } from '../../facts/shapes.ts'
import type { ScoreTable } from '../../estimate/score-table.ts'
import type { BuiltProblem, BuiltWork } from '../build-problem.ts'
import type { PlanInput } from '../plan-input.ts'
import { USUAL_MULTIPLES } from './prior.ts'

/**
 * How sure the work of an activity is: three points of what is left of it, in any unit, as their mean stands for the
 * activity's planned work.
 */
export interface Duration extends ThreePoint {
  /** Its repair is not assessed, so what it hides makes this work longer by one of these; null where nothing is hidden. */
  readonly hidden: ScoreTable | null
}

/** By activity. Opening and assessing a repair is what it looks like from outside. */
export function durationsOf(
  { work }: Pick<BuiltProblem, 'work'>,
  hidden: PlanInput['hidden'],
): readonly Duration[] {
  return work.map((each) => ({ ...each.points, hidden: isHidden(each) ? multiplesOf(each, hidden) : null }))
}

const multiplesOf = ({ repairId }: BuiltWork, hidden: PlanInput['hidden']): ScoreTable =>
  (repairId === null ? undefined : hidden.get(repairId)) ?? USUAL_MULTIPLES

const isHidden = ({ assessed, target }: BuiltWork): boolean =>
  !assessed && target.kind === 'gate' && target.gate !== 'opened' && target.gate !== 'assessed'
