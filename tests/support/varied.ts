import type { PayloadOf } from '../../domain/facts.ts'
import type { WorkTarget } from '../../domain/facts/shapes.ts'

/** A line of a variation that leaves no doubt about its hours. */
export const sure = (target: WorkTarget, hours: number): PayloadOf<'variationRaised'>['lines'][number] => ({
  target,
  hours,
  low: hours,
  high: hours,
})
