import type { WorkTarget } from '../facts/shapes.ts'
import type { PlannedWork } from '../plan/plan.ts'
import { createCalendar, type WorkingCalendar, workingHoursBetween } from '../time/calendar.ts'
import { addDays } from '../time/local-date.ts'
import { dayEnd, dayStart, localDateOf } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import { personCalendar } from './person-day.ts'
import { targetKey } from './target.ts'
import { sumByWeek, type DayHours, type WeekHours } from './value-days.ts'

/** One piece of work of a plan; moments are epoch ms. */
export type PlannedPiece = Pick<PlannedWork, 'target' | 'start' | 'finish' | 'people'>

/** What a day plans of one gate or task. */
export interface PlannedDay extends DayHours {
  readonly target: WorkTarget
}

/**
 * Planned value, person-hours by local date: the authorised hours of each gate and task spread over the working hours of
 * its people (of the workshop, where the plan names nobody) between its planned start and finish. All of it falls on the
 * day of the finish where nobody works in between. Hours of what the plan has no piece for are not spread: they
 * have no planned value. In order of dates for each target.
 *
 * @param authorised person-hours by target key, as they were when this plan was in force
 */
export function plannedValueByDay(
  pieces: readonly PlannedPiece[],
  authorised: ReadonlyMap<string, number>,
  workshop: WorkshopState,
): readonly PlannedDay[] {
  const byTarget = Map.groupBy(pieces, ({ target }) => targetKey(target))
  return [...byTarget].flatMap(([key, own]) => spread(own, authorised.get(key) ?? 0, workshop))
}

/** The same by ISO week, from the first week with work to the last, none left out. */
export const plannedValueByWeek = (
  pieces: readonly PlannedPiece[],
  authorised: ReadonlyMap<string, number>,
  workshop: WorkshopState,
): readonly WeekHours[] => sumByWeek(plannedValueByDay(pieces, authorised, workshop))

function spread(
  pieces: readonly PlannedPiece[],
  hours: number,
  workshop: WorkshopState,
): readonly PlannedDay[] {
  if (hours === 0) return []
  const days = pieces.flatMap((piece) => workedDays(piece, workshop))
  const whole = days.reduce((sum, day) => sum + day.hours, 0)
  if (whole > 0) return days.map((day) => ({ ...day, hours: (hours * day.hours) / whole }))
  return pieces.map(({ target, finish }) => ({
    target,
    date: localDateOf(finish, workshop.zone),
    hours: hours / pieces.length,
  }))
}

/** Working hours of a piece's people on each day that it runs on; their proportions count. */
function workedDays(
  { target, start, finish, people }: PlannedPiece,
  workshop: WorkshopState,
): readonly PlannedDay[] {
  const calendars =
    people.length === 0 ? [workshopCalendar(workshop)] : people.map((id) => personCalendar(workshop, id))
  const last = localDateOf(finish, workshop.zone)
  const days: PlannedDay[] = []
  for (let date = localDateOf(start, workshop.zone); date <= last; date = addDays(date, 1)) {
    const from = Math.max(start, dayStart(date, workshop.zone))
    const to = Math.min(finish, dayEnd(date, workshop.zone))
    const hours = calendars.reduce((sum, calendar) => sum + workingHoursBetween(calendar, from, to), 0)
    if (hours > 0) days.push({ target, date, hours })
  }
  return days
}

/** The workshop's own working time: its week less holidays. */
export const workshopCalendar = ({ zone, week, holidays }: WorkshopState): WorkingCalendar =>
  createCalendar({ zone, week, holidays: holidays.map(({ date }) => date), absences: [], extra: [] })
