import { createEstimateHistory, type EstimateHistory } from './estimate-history.ts'
import type { FinishedRepair } from './finished-repair.ts'

/**
 * What repairs told that were finished by some time. Learning takes long where much is finished, and what was known at a time stays
 * known, so it is remembered by the last of them.
 *
 * @param until in the order of finishing
 */
export function pastHistory(until: readonly FinishedRepair[]): EstimateHistory {
  const last = until.at(-1)
  if (last === undefined) return createEstimateHistory([])
  const known = histories.get(last)
  if (known?.repairs === until.length) return known.history
  const history = createEstimateHistory(until)
  histories.set(last, { repairs: until.length, history })
  return history
}

/** `repairs`: how many it was asked for; the history itself leaves those out that are none. */
const histories = new WeakMap<
  FinishedRepair,
  { readonly repairs: number; readonly history: EstimateHistory }
>()
