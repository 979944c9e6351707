import { type EstimateProposal, proposeEstimate } from '../estimate/estimate-proposal.ts'
import type { FinishedRepair } from '../estimate/finished-repair.ts'
import type { TakenHours } from '../estimate/repair-band.ts'
import { OWN_JOBS_FROM } from '../estimate/learned-ratios.ts'
import type { RepairPlan } from '../facts/shapes.ts'
import { eachGate, GATES } from '../gates.ts'
import { fixed, hours } from '../text/words.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import type { RepairType } from '../workshop.ts'
import { kindWords } from './estimate-words.ts'

/** The hours that finished repairs of a type propose for a new one, beside the type's own. */
export interface HoursProposalView {
  /** 'Take the hours of 14 finished spring hangers' */
  readonly title: string
  /** What they rest on, and 'By them it is 18.5 h (12 to 27 h), by the type 15.0 h (10 to 22 h).' */
  readonly words: string
  /** The type's plan with these hours. */
  readonly plan: RepairPlan
  readonly taken: TakenHours
}

/**
 * Null where so few repairs of the type are finished that its own hours say more.
 *
 * @param finished of the whole workshop, in the order of finishing
 */
export function hoursProposalView(
  { id, plan }: Pick<RepairType, 'id' | 'plan'>,
  finished: readonly FinishedRepair[],
): HoursProposalView | null {
  const proposal = proposeEstimate(finished, id, null)
  if (proposal === null || proposal.rests.repairs < OWN_JOBS_FROM) return null
  const { repairs } = proposal.rests
  const proposed = withProposed(plan, proposal)
  const kept = GATES.filter((gate) => proposal.gates[gate] === null).length
  const keeps = kept === 0 ? '' : ` ${kept === 1 ? '1 gate keeps' : `${kept} gates keep`} the type’s hours.`
  return {
    title: `Take the hours of ${repairs} finished ${kindWords(plan.name, repairs)}`,
    words: `${proposal.words} By them it is ${sumWords(proposed)}, by the type ${sumWords(plan)}.${keeps}`,
    plan: proposed,
    taken: proposal.taken,
  }
}

/** Gates that nothing is proposed for keep the type's hours. */
function withProposed(plan: RepairPlan, { gates }: EstimateProposal): RepairPlan {
  const proposed = eachGate((gate) => ({
    ...plan.gates[gate],
    hours: gates[gate] ?? plan.gates[gate].hours,
  }))
  return { ...plan, gates: proposed }
}

/** '18.5 h (12 to 27 h)' */
function sumWords({ gates }: RepairPlan): string {
  const plans = GATES.map((gate) => gates[gate].hours)
  const sum = (point: 'shortest' | 'longest') => plans.reduce((total, each) => total + each[point], 0)
  const expected = plans.reduce((total, points) => total + expectedHours(points), 0)
  return `${hours(expected)} (${fixed(sum('shortest'), 0)} to ${hours(sum('longest'), 0)})`
}
