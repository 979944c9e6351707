import type { JudgedRepair } from '../estimate/judged-repair.ts'
import { learnedHours, withLearnedHours } from '../estimate/learned-hours.ts'
import type { RepairPlan } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { RepairType } from '../workshop.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import { fixed, hours } from '../text/words.ts'
import { kindWords } from './estimate-words.ts'

/** The hours that finished repairs of a type propose for a new one, beside the type's own. */
export interface HoursProposalView {
  /** 'Take the hours of 14 finished spring hangers' */
  readonly title: string
  /** 'By them it is 18.5 h (12 to 27 h), rework among it; by the type 15.0 h (10 to 22 h).' */
  readonly words: string
  /** The type's plan with these hours. */
  readonly plan: RepairPlan
}

/**
 * Null where too few repairs of the type are finished.
 *
 * @param finished of the whole workshop, in the order of finishing
 */
export function hoursProposalView(
  { id, plan }: Pick<RepairType, 'id' | 'plan'>,
  finished: readonly JudgedRepair[],
): HoursProposalView | null {
  const learned = learnedHours(finished.filter(({ typeId }) => typeId === id))
  if (learned === null) return null
  const proposed = withLearnedHours(plan, learned)
  const { repairs, gates } = learned
  const kept = GATES.length - gates.size
  const keeps = kept === 0 ? '' : ` ${kept === 1 ? '1 gate keeps' : `${kept} gates keep`} the type’s hours.`
  return {
    title: `Take the hours of ${repairs} finished ${kindWords(plan.name, repairs)}`,
    words: `By them it is ${sumWords(proposed)}, rework among it; by the type ${sumWords(plan)}.${keeps}`,
    plan: proposed,
  }
}

/** '18.5 h (12 to 27 h)' */
function sumWords({ gates }: RepairPlan): string {
  const plans = GATES.map((gate) => gates[gate].hours)
  const sum = (point: 'shortest' | 'longest') => plans.reduce((total, each) => total + each[point], 0)
  const expected = plans.reduce((total, points) => total + expectedHours(points), 0)
  return `${hours(expected)} (${fixed(sum('shortest'), 0)} to ${hours(sum('longest'), 0)})`
}
