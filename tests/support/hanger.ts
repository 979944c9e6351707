import type { EstimateHistory } from '../../domain/estimate/estimate-history.ts'
import {
  type GateToEstimate,
  repairBand,
  type RepairBand,
  type RepairToEstimate,
} from '../../domain/estimate/repair-band.ts'
import { type Gate, GATES } from '../../domain/gates.ts'
import { typeIdSchema } from '../../domain/ids.ts'

export const HANGERS = typeIdSchema.parse('type-spring-hangers')

const gateOf = (hours: number, over: Partial<GateToEstimate> = {}): GateToEstimate => ({
  before: hours,
  assessed: hours,
  points: { shortest: 0.7 * hours, likely: 0.925 * hours, longest: 1.6 * hours },
  isDone: false,
  spent: 0,
  rework: 0,
  ...over,
})

/** Ten hours: one each for opened and assessed, the rest behind what is hidden. */
export function hanger(
  over: Partial<Omit<RepairToEstimate, 'gates'>> = {},
  gates: Partial<Record<Gate, Partial<GateToEstimate>>> = {},
): RepairToEstimate {
  const hours = (gate: Gate): number =>
    gate === 'fabricated' ? 4 : gate === 'sealed' || gate === 'primed' ? 0.5 : 1
  return {
    typeId: HANGERS,
    what: 'spring hangers',
    outside: 'pitted',
    hiddenLayers: 1,
    worstHidden: null,
    taken: null,
    ...over,
    gates: Object.fromEntries(
      GATES.map((gate) => [gate, gateOf(hours(gate), gates[gate])]),
    ) as unknown as Record<Gate, GateToEstimate>,
  }
}

export const ASSESSED = { opened: { isDone: true, spent: 1 }, assessed: { isDone: true, spent: 1 } } as const

/** @throws where there is no band */
export function bandOn(history: EstimateHistory, repair: RepairToEstimate): RepairBand {
  const band = repairBand(history, repair)
  if (band === null) throw new Error('There should be a band.')
  return band
}
