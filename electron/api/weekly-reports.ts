import { checkHostClock } from '../../db/host-clock.ts'
import { readWorkshop } from '../../db/reads.ts'
import { readSetting, writeSetting } from '../../db/settings.ts'
import type { Moment } from '../../domain/car.ts'
import { type DueReports, latestDue } from '../../domain/report/weekly-due.ts'
import type { ApiDeps } from './deps.ts'
import { readOwnerReports } from './owner-reports-view.ts'
import type { ReportDesk } from './report-desk.ts'

/**
 * Prepares the reports of all cars once their set hour has come, one after the other; issues none. A computer that was off
 * catches up with the latest hour that it missed. What the program's end cuts short begins anew when it runs again.
 *
 * @returns to be called now and then; a call while the last one is at work does nothing
 */
export function createWeeklyReports(deps: ApiDeps, desk: Pick<ReportDesk, 'prepare'>): () => Promise<void> {
  const { db, closing } = deps
  /** The hour that was begun in this run: one that fails is not tried twice a minute. */
  let begun: Moment | null = null

  return async () => {
    const due = dueNow(deps)
    if (due === null || due.at === begun) return
    begun = due.at
    const open = readOwnerReports(db, due.week).reports.filter(({ issued }) => issued.length === 0)
    for (const { visitId } of open) {
      if (closing.aborted) return
      await desk.prepare({ visitId, week: due.week })
    }
    if (!closing.aborted) writeSetting(db, 'reportsPrepared', String(due.at))
  }
}

/**
 * Null while nothing is set, once the reports of the latest hour were prepared, and while the clock may be far ahead: weeks to
 * come would be prepared.
 */
function dueNow({ db, now }: ApiDeps): DueReports | null {
  const { reports, reportsSince, zone } = readWorkshop(db)
  if (reports.weekly === null || reportsSince === null) return null
  const due = latestDue(reports.weekly, reportsSince, now(), zone)
  if (due === null || checkHostClock(db, now()).kind === 'ahead') return null
  const last = Number(readSetting(db, 'reportsPrepared') ?? 0)
  // One that is still to come was prepared while the clock was ahead.
  return last >= due.at && last <= now() ? null : due
}
