import { type Gate, GATES } from '../gates.ts'
import { type LogRatioBelief, USUAL_PRIOR } from './log-ratios.ts'
import type { GateHours } from './repair-hours.ts'

/** How far a repair is: what is done is known, and the rest is what an estimate is for. */
export interface WorkPoint {
  /** Passed or not needed, in the order of GATES. */
  readonly done: readonly Gate[]
}

/** Whether what a repair hides makes this gate longer: opening and assessing it is what it looks like from outside. */
export const isBehind = (gate: Gate): boolean => gate !== 'opened' && gate !== 'assessed'

/** What hours are expected by, before what the workshop has learned of its own overruns. */
export interface ExpectedBy {
  /** What the gates after assessed take for their first estimate. */
  readonly multiple: number
  /** Priced again once it was assessed: then the figures of then count and the multiple is in them. */
  readonly pricedAgain: boolean
}

export type EstimatedGates = Readonly<Record<Gate, Pick<GateHours, 'before' | 'assessed'>>>

export const isAssessedAt = ({ done }: WorkPoint): boolean => done.includes('assessed')

export const openAt = ({ done }: WorkPoint): readonly Gate[] => GATES.filter((gate) => !done.includes(gate))

/** Person-hours expected of some gates of a repair. */
export function expectedOf(
  gates: EstimatedGates,
  some: readonly Gate[],
  { multiple, pricedAgain }: ExpectedBy,
): number {
  return some.reduce((sum, gate) => {
    const { before, assessed } = gates[gate]
    return sum + (pricedAgain ? assessed : before * (isBehind(gate) ? multiple : 1))
  }, 0)
}

/** Whether what was found changed the figures; a gate that fell away does not count. */
export function isPricedAgain(gates: EstimatedGates): boolean {
  const whole = GATES.reduce((sum, gate) => sum + gates[gate].before, 0)
  return GATES.some((gate) => {
    const { before, assessed } = gates[gate]
    return assessed > 0 && Math.abs(assessed - before) > SAME_WITHIN * whole
  })
}

/** Less is rounding. */
const SAME_WITHIN = 0.01

/**
 * How the gates after assessed that are done came out against what was expected of them, as a logarithm; held to what one
 * badly guessed small gate may say of the rest. 0 where there are none.
 *
 * @param spent person-hours of those gates until they were passed
 */
export function carriedOf(spent: number, expected: number): number {
  if (!(expected > 0) || !(spent > 0)) return 0
  return Math.min(MOST_CARRIED, Math.max(-MOST_CARRIED, Math.log(spent / expected)))
}

/** Three times as long, or a third. */
const MOST_CARRIED = Math.log(3)

/**
 * While nothing is finished the gates done tell of the type too, of which only the usual prior is known: what is not followed
 * already is followed by as much as a type of unknown mean explains of them.
 *
 * @param finished repairs that tell of the type, or of the workshop's other types
 */
export function slopeOfUnknown(slope: number, finished: number): number {
  const type = 1 / (USUAL_PRIOR.jobs + finished)
  return slope === 0 ? 0 : slope + ((1 - slope) * type) / (type + PART_VARIANCE)
}

/** Of half of a repair's gates, in variances of the whole: fewer gates even each other out less. */
const PART_VARIANCE = 1.3

/**
 * What is believed of the rest of a repair before anything is finished. Once gates after assessed are done, they have told
 * most of what the mean of the type could have been off by: it counts as much as that of so many repairs.
 */
export function usualAt({ done }: WorkPoint): LogRatioBelief {
  return done.some(isBehind) ? { ...USUAL_PRIOR, jobs: TOLD_JOBS } : USUAL_PRIOR
}

const TOLD_JOBS = 6
