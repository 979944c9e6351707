import type { Moment } from '../car.ts'
import { dateToIsoWeek, formatIsoWeek } from '../time/iso-week.ts'
import { addDays } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'
import type { ListedCopy } from './copy-shapes.ts'

/** The local date of the copy is today or within so many days before it. */
const ALL_FOR_DAYS = 1
const DAILY_FOR_DAYS = 14
const WEEKLY_FOR_DAYS = 91

type Thinned = Pick<ListedCopy, 'stamp' | 'made' | 'isWhole'>

/**
 * The copies that are not needed any more: all of today and yesterday stay, then the last one of each day for two weeks, of
 * each ISO week for three months, of each month beyond, by local dates. Where there is a whole one it is that which stays. The
 * last whole one stays whatever its age, and what was made after `now`, by a clock that was set back since.
 *
 * @returns stamps
 */
export function copiesToDrop(copies: readonly Thinned[], now: Moment, zone: string): readonly string[] {
  const today = localDateOf(now, zone)
  const groups = Map.groupBy(copies, ({ stamp, made }) => groupOf(localDateOf(made, zone), stamp, today))
  const kept = new Set([...groups.values()].map((group) => best(group)?.stamp))
  kept.add(best(copies.filter(({ isWhole }) => isWhole))?.stamp)
  return copies.map(({ stamp }) => stamp).filter((stamp) => !kept.has(stamp))
}

/** Copies of one group stand for each other. */
function groupOf(date: string, stamp: string, today: string): string {
  if (date >= addDays(today, -ALL_FOR_DAYS)) return stamp
  if (date >= addDays(today, -DAILY_FOR_DAYS)) return `day ${date}`
  if (date >= addDays(today, -WEEKLY_FOR_DAYS)) return `week ${formatIsoWeek(dateToIsoWeek(date))}`
  return `month ${date.slice(0, 7)}`
}

/** The last whole one, or the last one where none is whole. */
const best = (group: readonly Thinned[]): Thinned | undefined =>
  group.toSorted((a, b) => Number(b.isWhole) - Number(a.isWhole) || b.made - a.made)[0]
