import { z } from 'zod'

/** The eight gates in their default order; a repair may put primed before sealed, as its product's data sheet says. */
export const GATES = [
  'opened',
  'assessed',
  'fabricated',
  'sealed',
  'primed',
  'trial-fitted',
  'welded',
  'painted',
] as const

export const gateSchema = z.enum(GATES)
export type Gate = z.infer<typeof gateSchema>

/** Something for every gate, in their default order. */
export const eachGate = <T>(of: (gate: Gate) => T): Record<Gate, T> =>
  // A record that is made from GATES has every gate, which TypeScript cannot see.
  Object.fromEntries(GATES.map((gate) => [gate, of(gate)])) as Record<Gate, T>

const PRIMED_FIRST: readonly Gate[] = [
  'opened',
  'assessed',
  'fabricated',
  'primed',
  'sealed',
  'trial-fitted',
  'welded',
  'painted',
]

/** The repair's own order of gates. */
export const gateOrder = (plan: { readonly primedFirst: boolean }): readonly Gate[] =>
  plan.primedFirst ? PRIMED_FIRST : GATES

/** The gates before `gate` in the repair's own order. */
export const gatesBefore = (plan: { readonly primedFirst: boolean }, gate: Gate): readonly Gate[] => {
  const order = gateOrder(plan)
  return order.slice(0, order.indexOf(gate))
}

/** `gate` and all that come after it in the repair's own order. */
export const gatesFrom = (plan: { readonly primedFirst: boolean }, gate: Gate): readonly Gate[] => {
  const order = gateOrder(plan)
  return order.slice(order.indexOf(gate))
}
