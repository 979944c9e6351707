import type { ThreePoint } from '../../facts/shapes.ts'
import type { BuiltProblem, BuiltWork } from '../build-problem.ts'

/**
 * How sure the work of an activity is: three points of what is left of it, in any unit, as their mean stands for the
 * activity's planned work.
 */
export interface Duration extends ThreePoint {
  /** Its repair is not assessed, so what it hides makes this work longer. */
  readonly hidden: boolean
}

/** By activity. Opening and assessing a repair is what it looks like from outside. */
export function durationsOf({ work }: Pick<BuiltProblem, 'work'>): readonly Duration[] {
  return work.map((each) => ({ ...each.points, hidden: isHidden(each) }))
}

const isHidden = ({ assessed, target }: BuiltWork): boolean =>
  !assessed && target.kind === 'gate' && target.gate !== 'opened' && target.gate !== 'assessed'
