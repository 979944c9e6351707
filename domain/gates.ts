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

export const isGate = (value: string): value is Gate => (GATES as readonly string[]).includes(value)

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
