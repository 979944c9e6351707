import type { Database } from '../../db/database.ts'
import type { MadePlan } from '../../db/keep-with-cause.ts'
import { lastDayEnd, lastKeptPlan } from '../../db/last-kept-plan.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { Moment } from '../../domain/car.ts'
import { localDateOf } from '../../domain/time/zone.ts'
import { keepDayEnd } from './keep-plans.ts'

/**
 * Keeps a plan once for a local day that has ended. A computer that was off at midnight catches up: nothing can have
 * come in meanwhile, so that one plan speaks for all the days it was off.
 *
 * @param now the host's clock, epoch milliseconds
 * @returns to be called now and then with the newest plan
 */
export function createDayKeeper(db: Database, now: () => Moment): (newest: MadePlan) => void {
  /** Local date whose end is kept next. */
  let day: string | null = null
  return (newest) => {
    const { zone } = readWorkshop(db)
    const today = localDateOf(now(), zone)
    day ??= dayToKeep(db, zone) ?? today
    if (day >= today) return
    keepDayEnd(db, newest, now())
    day = today
  }
}

/** The day of the last day end: it was kept in the first minutes of that day. Null before a first plan. */
function dayToKeep(db: Database, zone: string): string | null {
  const last = lastDayEnd(db) ?? lastKeptPlan(db)?.keptAt ?? null
  return last === null ? null : localDateOf(last, zone)
}
