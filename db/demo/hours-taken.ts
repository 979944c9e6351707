import { isBehind } from '../../domain/estimate/work-point.ts'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import type { RepairState } from '../../domain/car.ts'
import type { Random } from './photos/random.ts'

/** What chance makes of the agreed hours of tasks and of what is done in between. */
export const chance = (random: Random): number => random.between(0.85, 1.35)

/**
 * The share of its agreed hours that a gate takes in the invented workshop as it truly is: more after assessed where the
 * hidden metal turned out bad, less where it was good, and each time as luck has it.
 */
export function gateShare(repair: RepairState, gate: Gate, random: Random): number {
  const worst = worstHidden(repair)
  const hidden = isBehind(gate) && worst !== null ? TRUE_MULTIPLES[worst] / USUAL_MULTIPLE : 1
  return hidden * Math.exp(GATE_DEVIATION * normalOf(random) - GATE_DEVIATION ** 2 / 2)
}

/** What the gates after assessed take by the worst hidden grade, as multiples of what they look like from outside. */
export const TRUE_MULTIPLES: Readonly<Record<Grade, number>> = {
  sound: 0.72,
  surface: 0.85,
  pitted: 1.05,
  holed: 1.45,
  gone: 1.95,
}
/** Of the demo's repairs in the mean: their types' hours hold it already. */
const USUAL_MULTIPLE = 1.15
/** Half of what the gates of invented repairs vary by: the demo's cars shall be where their story wants them. */
const GATE_DEVIATION = 0.125

/** The outermost layer is seen from outside; null before its layers are graded. */
function worstHidden({ plan, layers }: RepairState): Grade | null {
  const hidden = plan.layers.slice(0, -1).map(({ layerId }) => layers.get(layerId)?.grade ?? null)
  const worst = Math.max(...hidden.map((grade) => GRADES.indexOf(grade as Grade)), -1)
  return GRADES[worst] ?? null
}

/** Box and Muller. */
const normalOf = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next())
