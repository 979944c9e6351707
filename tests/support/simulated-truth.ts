import { CAR_CORRELATION_PRIOR } from '../../domain/estimate/car-correlation.ts'
import { MULTIPLE_PRIOR } from '../../domain/estimate/grade-multiples.ts'
import { HIDDEN_GRADE_PRIOR, OUTSIDE_PRIOR } from '../../domain/estimate/hidden-grades.ts'
import { USUAL_PRIOR, WORKSHOP_SHARE } from '../../domain/estimate/log-ratios.ts'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { REPAIR_CORRELATION } from '../../domain/plan/likelihood/prior.ts'
import { GATE_SHARES, gateHoursOf, usualTruth, type WorkshopTruth } from './workshop-truth.ts'
import { createChance } from './simulated-chance.ts'

/**
 * A workshop as the program believes it to be before anything is finished: each type's mean and spread drawn from the usual
 * prior, grades and multiples as stated.
 */
export function priorTruth(seed: number, types: number): WorkshopTruth {
  const chance = createChance(seed)
  const common = chance.normal()
  return usualTruth({
    types: Array.from({ length: types }, (_, index) => {
      const variance = USUAL_PRIOR.scale / chance.gammaOfTwo()
      const ofType = Math.sqrt(1 - WORKSHOP_SHARE) * chance.normal()
      const mean = Math.sqrt(variance) * (Math.sqrt(WORKSHOP_SHARE) * common + ofType)
      // So that the gates of a repair have in common what is believed, and their sum varies as its type does.
      const gateVariance = (variance * COMMON_SHARE) / REPAIR_CORRELATION
      return {
        name: `type ${index + 1}`,
        hours: gateHoursOf(20),
        hiddenLayers: ['inner panel'],
        outside: OUTSIDE_PRIOR,
        inside: HIDDEN_GRADE_PRIOR,
        // Gates that even each other out lie nearer their mean than their middle: the whole's middle is the type's.
        runs: Math.exp(mean + (GATES_APART * gateVariance * (1 - REPAIR_CORRELATION)) / 2),
        repairDeviation: Math.sqrt(gateVariance * REPAIR_CORRELATION),
        gateDeviation: Math.sqrt(gateVariance * (1 - REPAIR_CORRELATION)),
      }
    }),
    multiples: Object.fromEntries(
      GRADES.map((grade) => [grade, MULTIPLE_PRIOR[grade] * Math.exp(MULTIPLE_DEVIATION * chance.normal())]),
    ) as unknown as Record<Grade, number>,
    estimators: [{ name: 'Maren', says: 1 }],
    estimateDeviation: 0,
    carCorrelation: CAR_CORRELATION_PRIOR / COMMON_SHARE,
    pricedAgain: { share: 0, deviation: 0 },
    reworkShare: 0,
    ungradedShare: 0,
  })
}

/** A multiple's prior is worth two repairs that vary as the usual prior says. */
const MULTIPLE_DEVIATION = Math.sqrt(USUAL_PRIOR.scale / 2)

/** What is left of the variance of eight gates in their sum when they have nothing in common. */
const GATES_APART = GATES.reduce((sum, gate) => sum + GATE_SHARES[gate] ** 2, 0)

/** The part of a repair's variance that its gates have in common. */
const COMMON_SHARE = REPAIR_CORRELATION / (REPAIR_CORRELATION + (1 - REPAIR_CORRELATION) * GATES_APART)
