import { type Gate, GATES } from '../gates.ts'
import { isBehind } from './grade-multiples.ts'
import { type LogRatioBelief, USUAL_PRIOR } from './log-ratios.ts'
import type { GateHours, RepairHours } from './repair-hours.ts'

/** How far a repair is: what is done is known, and the rest is what an estimate is for. */
export interface WorkPoint {
  /** Passed or not needed, in the order of GATES. */
  readonly done: readonly Gate[]
}

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

/** How a finished repair went on from a point of its work. Logarithms of actual / expected. */
export interface WentOn {
  /** Of the gates after assessed that were done; 0 where there were none. */
  readonly carried: number
  /** Of the rest: the gates that were not done, and what was to come of rework on the others. */
  readonly rest: number
}

/** Null where nothing was expected of the rest or nothing was spent on it. */
export function wentOnFrom(gates: RepairHours, point: WorkPoint, multiple: number): WentOn | null {
  const by = { multiple, pricedAgain: isAssessedAt(point) && isPricedAgain(gates) }
  const open = openAt(point)
  const expected = expectedOf(gates, open, by)
  const spent =
    open.reduce((sum, gate) => sum + gates[gate].actual, 0) +
    point.done.reduce((sum, gate) => sum + gates[gate].rework, 0)
  if (!(expected > 0) || !(spent > 0)) return null
  const first = Object.fromEntries(point.done.map((gate) => [gate, gates[gate].actual - gates[gate].rework]))
  return {
    carried: carriedFrom(gates, point, by, (gate) => first[gate] ?? 0),
    rest: Math.log(spent / expected),
  }
}

/**
 * How the gates after assessed that are done came out against what was expected of them, as a logarithm; held to what one
 * badly guessed small gate may say of the rest.
 *
 * @param spent person-hours by gate until it was passed
 */
export function carriedFrom(
  gates: EstimatedGates,
  { done }: WorkPoint,
  by: ExpectedBy,
  spent: (gate: Gate) => number,
): number {
  const behind = done.filter(isBehind)
  const expected = expectedOf(gates, behind, by)
  const actual = behind.reduce((sum, gate) => sum + spent(gate), 0)
  if (!(expected > 0) || !(actual > 0)) return 0
  return Math.min(MOST_CARRIED, Math.max(-MOST_CARRIED, Math.log(actual / expected)))
}

/** Three times as long, or a third. */
const MOST_CARRIED = Math.log(3)

/**
 * How much of that the rest follows: the slope of the one over the other within types, shrunk to what gates of one repair
 * have in common when nothing is known (the correlation of the gates over the correlation of a mean of `gates` of them).
 *
 * @param types by type; pairs of finished repairs at the same point
 */
export function carriedSlope(
  types: readonly (readonly WentOn[])[],
  gates: number,
  correlation: number,
): number {
  if (gates === 0) return 0
  const prior = correlation / (correlation + (1 - correlation) / gates)
  let [products, squares] = [prior * PRIOR_SQUARES, PRIOR_SQUARES]
  for (const own of types) {
    const [carried, rest] = [meanBy(own, 'carried'), meanBy(own, 'rest')]
    for (const each of own) {
      products += (each.carried - carried) * (each.rest - rest)
      squares += (each.carried - carried) ** 2
    }
  }
  return Math.max(0, products / squares)
}

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

/** Ten repairs whose gates vary as the usual prior says. */
const PRIOR_SQUARES = 10 * USUAL_PRIOR.scale

const meanBy = (own: readonly WentOn[], part: keyof WentOn): number =>
  own.reduce((sum, each) => sum + each[part], 0) / own.length
