import type { Moment } from '../domain/car.ts'
import { dayWords } from '../domain/text/words.ts'
import { instantToLocal } from '../domain/time/zone.ts'
import type { ReadDatabase } from './database.ts'
import { lastLine } from './chains.ts'
import { readWorkshop } from './reads.ts'

/** How the host's clock stands against the time that the last fact was recorded at. */
export type HostClock =
  | { readonly kind: 'plausible' }
  /** Behind what is recorded: new facts get the last recorded time until the clock has caught up. */
  | { readonly kind: 'behind'; readonly lastRecorded: Moment; readonly words: string }
  /** So far ahead that the clock may be wrong, if the workshop was not closed for so long. */
  | { readonly kind: 'ahead'; readonly lastRecorded: Moment; readonly words: string }

/**
 * What a command beside the host takes for now: this computer's time, or the journal's own where that is later, as a demo may
 * be filled up to a day to come.
 *
 * @param now this computer's time, epoch milliseconds
 */
export function latestTime(db: ReadDatabase, now: Moment): Moment {
  return Math.max(now, Date.parse(lastLine(db.reader)?.recorded ?? '') || 0)
}

/** Two computers that keep network time differ by seconds; minutes mean that somebody or something set the clock. */
const MOST_BEHIND_MS = 2 * 60_000
/** Longer than a workshop's longest holidays. */
const MOST_AHEAD_MS = 60 * 86_400_000

/** @param now the host's clock, epoch milliseconds */
export function checkHostClock(db: ReadDatabase, now: Moment): HostClock {
  const last = lastLine(db.reader)
  if (!last) return { kind: 'plausible' }
  const lastRecorded = Date.parse(last.recorded)
  if (lastRecorded - now > MOST_BEHIND_MS)
    return {
      kind: 'behind',
      lastRecorded,
      words: `This computer's clock is behind the last fact, which was recorded on ${momentWords(db, lastRecorded)}. Set the clock right.`,
    }
  if (now - lastRecorded > MOST_AHEAD_MS)
    return {
      kind: 'ahead',
      lastRecorded,
      words: `The last fact was recorded long ago, on ${momentWords(db, lastRecorded)}. Check this computer's date.`,
    }
  return { kind: 'plausible' }
}

/** 'Fri 27 Nov 2026, 11:54' in the workshop's zone; with its year, as the clock's own may be wrong. */
function momentWords(db: ReadDatabase, at: Moment): string {
  const { date, time } = instantToLocal(at, readWorkshop(db).zone)
  return `${dayWords(date, 0)}, ${time}`
}
