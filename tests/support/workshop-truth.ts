import { TRUE_MULTIPLES } from '../../db/demo/hours-taken.ts'
import { HIDDEN_GRADE_PRIOR, OUTSIDE_PRIOR } from '../../domain/estimate/hidden-grades.ts'
import type { Grade } from '../../domain/facts/shapes.ts'
import { type Gate, GATES } from '../../domain/gates.ts'

/** How an invented workshop really is: what its estimates do not know. Deviations are of logarithms. */
export interface WorkshopTruth {
  readonly types: readonly TypeTruth[]
  /** What the gates after assessed take by the worst hidden grade, as multiples of what they look like from outside. */
  readonly multiples: Readonly<Record<Grade, number>>
  /** Who estimates, and what multiple of the right figure they write down. */
  readonly estimators: readonly { readonly name: string; readonly says: number }[]
  /** How far a written figure lies from what its estimator should write. */
  readonly estimateDeviation: number
  /** How alike the repairs of one car turn out, in what they hide and, apart from that, in how they go: of normal scores. */
  readonly carCorrelation: number
  /** Share of the repairs that are priced again once assessed, and how well. */
  readonly pricedAgain: { readonly share: number; readonly deviation: number }
  /** Share of the gates that are done twice, in part. */
  readonly reworkShare: number
  readonly ungradedShare: number
}

export interface TypeTruth {
  /** In the plural. */
  readonly name: string
  /** Person-hours of the gates as they look from outside, at the right figure. */
  readonly hours: Readonly<Record<Gate, number>>
  readonly hiddenLayers: readonly string[]
  readonly outside: Readonly<Record<Grade, number>>
  readonly inside: Readonly<Record<Grade, Readonly<Record<Grade, number>>>>
  /** All of its repairs take so many times the right figure. */
  readonly runs: number
  /** Between repairs, and between the gates of one repair. */
  readonly repairDeviation: number
  readonly gateDeviation: number
}

export const GATE_SHARES: Readonly<Record<Gate, number>> = {
  opened: 0.08,
  assessed: 0.06,
  fabricated: 0.34,
  sealed: 0.06,
  primed: 0.06,
  'trial-fitted': 0.1,
  welded: 0.22,
  painted: 0.08,
}

export const gateHoursOf = (whole: number): Readonly<Record<Gate, number>> =>
  Object.fromEntries(GATES.map((gate) => [gate, whole * GATE_SHARES[gate]])) as unknown as Record<
    Gate,
    number
  >

/** Five types that differ in size, in what they hide and in how far they run over; three estimators. */
export function usualTruth(over: Partial<WorkshopTruth> = {}): WorkshopTruth {
  const type = (name: string, whole: number, more: Partial<TypeTruth> = {}): TypeTruth => ({
    name,
    hours: gateHoursOf(whole),
    hiddenLayers: ['inner panel', 'strengthener'],
    outside: OUTSIDE_PRIOR,
    inside: HIDDEN_GRADE_PRIOR,
    runs: 1,
    repairDeviation: 0.2,
    gateDeviation: 0.25,
    ...more,
  })
  return {
    types: [
      type('sills', 34, { runs: 1.12, inside: WORSE }),
      type('spring hangers', 18, { inside: WORSE }),
      type('wheel arches', 26, { runs: 0.95 }),
      type('floor edges', 14, { runs: 1.2, inside: BETTER, hiddenLayers: ['cross-member flange'] }),
      type('door skins', 12, { runs: 0.9, hiddenLayers: [], repairDeviation: 0.24 }),
    ],
    multiples: TRUE_MULTIPLES,
    estimators: [
      { name: 'Maren', says: 1.05 },
      { name: 'Wren', says: 0.93 },
      { name: 'Joss', says: 1 },
    ],
    estimateDeviation: 0.06,
    carCorrelation: 0.3,
    pricedAgain: { share: 0.5, deviation: 0.08 },
    reworkShare: 0.06,
    ungradedShare: 0.05,
    ...over,
  }
}

const WORSE: TypeTruth['inside'] = {
  sound: { sound: 0.3, surface: 0.3, pitted: 0.25, holed: 0.1, gone: 0.05 },
  surface: { sound: 0.04, surface: 0.21, pitted: 0.4, holed: 0.27, gone: 0.08 },
  pitted: { sound: 0.01, surface: 0.05, pitted: 0.24, holed: 0.5, gone: 0.2 },
  holed: { sound: 0, surface: 0.02, pitted: 0.08, holed: 0.4, gone: 0.5 },
  gone: { sound: 0, surface: 0, pitted: 0.05, holed: 0.2, gone: 0.75 },
}

const BETTER: TypeTruth['inside'] = {
  sound: { sound: 0.75, surface: 0.2, pitted: 0.04, holed: 0.01, gone: 0 },
  surface: { sound: 0.3, surface: 0.45, pitted: 0.2, holed: 0.05, gone: 0 },
  pitted: { sound: 0.1, surface: 0.25, pitted: 0.45, holed: 0.17, gone: 0.03 },
  holed: { sound: 0.05, surface: 0.1, pitted: 0.3, holed: 0.45, gone: 0.1 },
  gone: { sound: 0.02, surface: 0.05, pitted: 0.13, holed: 0.4, gone: 0.4 },
}
