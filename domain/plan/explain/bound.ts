import { dayWords } from '../../text/words.ts'
import { instantToLocal, localYearOf } from '../../time/zone.ts'
import type { BuiltProblem } from '../build-problem.ts'
import { TICK_MS } from '../build/tick-scale.ts'
import type { StartReason } from '../plan.ts'

/** Something that lets work start from a tick on and not before. */
export interface Bound {
  readonly tick: number
  readonly reason: StartReason
  /** Goes on after the work's name: 'waits for Bay 3 until Fri 4 Dec 10:00'. Told only of the bound that counts. */
  readonly words: () => string
}

/** The one that allows last; of equals the first. */
export const lastBound = (bounds: readonly Bound[]): Bound | null =>
  bounds.reduce<Bound | null>((last, each) => (last === null || each.tick > last.tick ? each : last), null)

/** Ticks as 'Thu 26 Nov 14:30'; days are worded once. */
export function createMomentWords({
  origin,
  zone,
}: Pick<BuiltProblem, 'origin' | 'zone'>): (tick: number) => string {
  const year = localYearOf(origin, zone)
  const days = new Map<string, string>()
  return (tick) => {
    const { date, time } = instantToLocal(origin + tick * TICK_MS, zone)
    const day = days.get(date) ?? dayWords(date, year)
    days.set(date, day)
    return `${day} ${time}`
  }
}
