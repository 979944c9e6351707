import type { Moment } from '../car.ts'
import { plural } from '../text/words.ts'
import { daysBetween } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'

/** What is wrong with the copies as a whole, and what to do about it. */
export interface CopyWarning {
  readonly message: string
  readonly next: string
}

export interface CopyStanding {
  /** When the last whole copy was made; null when none ever was. */
  readonly lastGood: Moment | null
  /** Older than this is warned of, days. */
  readonly warnAfterDays: number
  /** False while no folder is set for them. */
  readonly hasFolder: boolean
  readonly now: Moment
  readonly zone: string
}

/** What is set where nothing was chosen yet. */
export const USUAL_WARN_AFTER_DAYS = 3

/** Null while the last good copy is young enough, by local dates. */
export function copyWarning({
  lastGood,
  warnAfterDays,
  hasFolder,
  now,
  zone,
}: CopyStanding): CopyWarning | null {
  if (lastGood === null)
    return {
      message: 'There is no copy of this workshop yet. If this computer fails, everything in it is lost.',
      next: hasFolder
        ? 'Make one on the Workshop screen, under Copies.'
        : 'Choose a folder for copies on the Workshop screen, under Copies.',
    }
  const days = daysBetween(localDateOf(lastGood, zone), localDateOf(now, zone))
  if (days <= warnAfterDays) return null
  return {
    message: `The last good copy of this workshop is ${plural('day', days)} old.`,
    next: 'See why on the Workshop screen, under Copies: is its disk attached, and has it room?',
  }
}
