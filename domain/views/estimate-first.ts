import type { RepairState } from '../car.ts'
import type { EstimateHistory } from '../estimate/estimate-history.ts'
import type { FinishedRepair } from '../estimate/finished-repair.ts'
import { pastHistory } from '../estimate/past-history.ts'
import { repairBand, type RepairBand, type RepairToEstimate } from '../estimate/repair-band.ts'
import { Z80 } from '../estimate/ratio-curve.ts'
import { meanOfTable, TABLE_SCORES } from '../estimate/score-table.ts'
import { eachGate } from '../gates.ts'
import type { LikelyHours } from '../text/likely-words.ts'

/** What was likely before a repair was opened. */
export interface FirstBand extends Pick<RepairBand, 'mean' | 'table' | 'correlation'> {
  readonly hours: LikelyHours
}

/**
 * As it was said when its payer accepted it, if that was before it was opened; else what its first figures and the repairs
 * finished until then tell. Null where nothing was estimated.
 *
 * @param stands the repair as it stands now
 * @param finished in the order of finishing
 */
export function firstBand(
  { stated, gates }: RepairState,
  stands: RepairToEstimate,
  finished: readonly FinishedRepair[],
  history: EstimateHistory,
): FirstBand | null {
  const openedAt = gates.opened.done?.stamp.number ?? Number.POSITIVE_INFINITY
  const said = stated.findLast(({ when, number }) => when === 'accepted' && number < openedAt)
  if (said !== undefined) return bandOfFigures(said.band, history.correlation)
  const untouched = eachGate((gate) => {
    const { before, points } = stands.gates[gate]
    return { before, assessed: before, points, isDone: false, spent: 0, rework: 0 }
  })
  const until = finished.filter((each) => each.finished.number < openedAt)
  return repairBand(pastHistory(until, history), { ...stands, worstHidden: null, gates: untouched })
}

/** Of what was said its figures are kept: the lognormal of its 50 and 80 %. */
function bandOfFigures({ p50, p80 }: LikelyHours, correlation: number): FirstBand {
  const deviation = p50 > 0 && p80 > p50 ? Math.log(p80 / p50) / Z80 : 0
  const table = TABLE_SCORES.map((score) => p50 * Math.exp(deviation * score))
  return { hours: { p50, p80 }, mean: meanOfTable(table), table, correlation }
}
