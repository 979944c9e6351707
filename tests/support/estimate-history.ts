import { type EstimateHistory, learnHistory } from '../../domain/estimate/estimate-history.ts'
import type { FinishedRepair } from '../../domain/estimate/finished-repair.ts'

/** What repairs tell that may stand in any order; those without an estimate or hours above 0 are no history. */
export const createEstimateHistory = (finished: readonly FinishedRepair[]): EstimateHistory =>
  learnHistory(
    finished
      .filter(({ before, actual }) => before > 0 && actual > 0)
      .toSorted((a, b) => a.finished.number - b.finished.number),
  )
