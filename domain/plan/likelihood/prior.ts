import { type ScoreTable, TABLE_SCORES } from '../../estimate/score-table.ts'

/**
 * What the gates after assessed take of a repair that is not assessed yet, as a multiple of what was estimated from
 * outside: lognormal, the same multiple for all of them. "Worse inside than out": half of such repairs take 15 % more or
 * worse, one in five half as much again or worse (e^(0.35 x 0.84) x 1.15 = 1.54), and one in three no more than estimated.
 * Invented for want of a source; taken where a repair's own multiples were not learned (domain/estimate/hidden-multiples.ts).
 */
export const HIDDEN_DAMAGE = { median: 1.15, logDeviation: 0.35 } as const

/** The same as a table, for a repair that nothing was learned for. */
export const USUAL_MULTIPLES: ScoreTable = TABLE_SCORES.map(
  (score) => HIDDEN_DAMAGE.median * Math.exp(HIDDEN_DAMAGE.logDeviation * score),
)

/**
 * How alike the gates of one repair turn out: the correlation of their normal scores. Where one gate of a repair was
 * underestimated, so were mostly the others: the same metal, the same access, the same estimator. Invented as well.
 */
export const REPAIR_CORRELATION = 0.3
