import type { Moment } from '../car.ts'
import { endOfWorkingDay } from '../time/calendar.ts'
import { addDays } from '../time/local-date.ts'
import { dayEnd, localDateOf } from '../time/zone.ts'
import { workshopCalendar } from '../value/planned-value.ts'
import type { WorkshopState } from '../workshop.ts'

/**
 * Until when work keeps to the plan in force: the end of today and so many of the workshop's working days more, as its
 * planning says; `now` itself when it keeps nothing.
 */
export function frozenUntil(workshop: WorkshopState, now: Moment): Moment {
  const { zone } = workshop
  let left = workshop.planning.frozenDays
  if (left === 0) return now
  const calendar = workshopCalendar(workshop)
  let date = localDateOf(now, zone)
  for (let days = 0; left > 0 && days < SEARCH_DAYS; days += 1) {
    date = addDays(date, 1)
    if (endOfWorkingDay(calendar, date) !== null) left -= 1
  }
  return dayEnd(date, zone)
}

/** A workshop that shuts for longer than this has no next working days. */
const SEARCH_DAYS = 60
