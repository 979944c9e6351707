import { type EstimateHistory, learnHistory } from './estimate-history.ts'
import type { FinishedRepair } from './finished-repair.ts'

/**
 * What repairs told that were finished by some time. Learning takes long where much is finished, so the ones asked for last are
 * remembered, as long as not one of their rows was corrected since.
 *
 * @param until in the order of finishing, with an estimate and hours above 0
 * @param now what all repairs tell; that it has these rows already only makes it faster
 */
export function pastHistory(until: readonly FinishedRepair[], now: EstimateHistory): EstimateHistory {
  const known = [now, ...recent].find(({ table: { repairs } }) => areSame(repairs, until))
  if (known === now) return now
  const history = known ?? learnHistory(until, now)
  recent = [history, ...recent.filter((each) => each !== history)].slice(0, MOST_REMEMBERED)
  return history
}

/** As many as the repairs of a large car; each takes up to a megabyte where ten thousand repairs are finished. */
const MOST_REMEMBERED = 24

let recent: readonly EstimateHistory[] = []

const areSame = (some: readonly FinishedRepair[], others: readonly FinishedRepair[]): boolean =>
  some.length === others.length &&
  some.at(-1) === others.at(-1) &&
  some.every((repair, at) => repair === others[at])
