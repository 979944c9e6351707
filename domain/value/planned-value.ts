import type { WorkTarget } from '../facts/shapes.ts'
import type { PersonId } from '../ids.ts'
import type { PlannedWork } from '../plan/plan.ts'
import { createCalendar, type WorkingCalendar, workingHoursBetween } from '../time/calendar.ts'
import { addDays } from '../time/local-date.ts'
import { dayEnd, dayStart, localDateOf } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import { personCalendar } from './person-day.ts'
import { targetKey } from './target.ts'
import type { DayHours } from './week-hours.ts'

/** One piece of work of a plan; moments are epoch ms. */
export type PlannedPiece = Pick<PlannedWork, 'target' | 'start' | 'finish' | 'people'>

/** What a day plans of one gate or task. */
export interface PlannedDay extends DayHours {
  readonly target: WorkTarget
}

/** The part of a gate's or task's planned work that falls on a local date; the parts of one add up to 1. */
export interface DayShare {
  readonly date: string
  readonly share: number
}

/**
 * How a plan spreads the work of each gate and task over days, by target key: over the working hours of its people (of the
 * workshop, where the plan names nobody) between its planned start and finish; all on the day of the finish where
 * nobody works in between. In order of dates. Work without a piece is not in it.
 */
export function planShares(
  pieces: readonly PlannedPiece[],
  workshop: WorkshopState,
): ReadonlyMap<string, readonly DayShare[]> {
  const days = createDays(workshop)
  const byTarget = Map.groupBy(pieces, ({ target }) => targetKey(target))
  return new Map([...byTarget].map(([key, own]) => [key, sharesOf(own, days)] as const))
}

function sharesOf(pieces: readonly PlannedPiece[], days: Days): readonly DayShare[] {
  const worked = new Map<string, number>()
  const add = (date: string, hours: number) => worked.set(date, (worked.get(date) ?? 0) + hours)
  for (const piece of pieces) addWorkedHours(piece, days, add)
  if (worked.size === 0) for (const { finish } of pieces) add(days.dateOf(finish), 1)
  const whole = [...worked.values()].reduce((sum, hours) => sum + hours, 0)
  const shares = [...worked].map(([date, hours]) => ({ date, share: hours / whole }))
  return shares.toSorted((a, b) => (a.date < b.date ? -1 : 1))
}

/** Working hours of a piece's people on each day that it runs on; their proportions count. */
function addWorkedHours(
  { start, finish, people }: PlannedPiece,
  { dateOf, boundsOf, calendarsOf }: Days,
  add: (date: string, hours: number) => void,
): void {
  const calendars = calendarsOf(people)
  const last = dateOf(finish)
  for (let date = dateOf(start); date <= last; date = addDays(date, 1)) {
    const bounds = boundsOf(date)
    const from = Math.max(start, bounds.start)
    const to = Math.min(finish, bounds.end)
    const hours = calendars.reduce((sum, calendar) => sum + workingHoursBetween(calendar, from, to), 0)
    if (hours > 0) add(date, hours)
  }
}

/** Local days and calendars of one workshop; a plan asks for the same ones a thousand times. */
interface Days {
  readonly dateOf: (moment: number) => string
  readonly boundsOf: (date: string) => { readonly start: number; readonly end: number }
  readonly calendarsOf: (people: readonly PersonId[]) => readonly WorkingCalendar[]
}

function createDays(workshop: WorkshopState): Days {
  const { zone } = workshop
  const ofNobody = [workshopCalendar(workshop)]
  const bounds = new Map<string, { readonly start: number; readonly end: number }>()
  return {
    dateOf: (moment) => localDateOf(moment, zone),
    boundsOf: (date) => {
      const known = bounds.get(date)
      if (known !== undefined) return known
      const fresh = { start: dayStart(date, zone), end: dayEnd(date, zone) }
      bounds.set(date, fresh)
      return fresh
    },
    calendarsOf: (people) =>
      people.length === 0 ? ofNobody : people.map((id) => personCalendar(workshop, id)),
  }
}

/** The workshop's own working time: its week less holidays. */
export const workshopCalendar = ({
  zone,
  week,
  holidays,
}: Pick<WorkshopState, 'zone' | 'week' | 'holidays'>): WorkingCalendar =>
  createCalendar({ zone, week, holidays: holidays.map(({ date }) => date), absences: [], extra: [] })
