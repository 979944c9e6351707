import type { Moment } from '../car.ts'
import type { PersonId } from '../ids.ts'
import { createCalendar, endOfWorkingDay, nextWorkingMoment, type WorkingCalendar } from '../time/calendar.ts'
import { dayStart, localDateOf } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'

/** Working time of a person: their own week or else the workshop's, less holidays, with their overtime, less absences. */
export function personCalendar(workshop: WorkshopState, personId: PersonId): WorkingCalendar {
  const calendars = calendarsOf(workshop)
  const known = calendars.get(personId)
  if (known !== undefined) return known
  const person = workshop.people.get(personId)
  const calendar = createCalendar({
    zone: workshop.zone,
    week: person?.week ?? workshop.week,
    holidays: workshop.holidays.map(({ date }) => date),
    absences: person?.absences ?? [],
    extra: [...workshop.overtime.values()].filter(({ people }) => people.includes(personId)),
  })
  calendars.set(personId, calendar)
  return calendar
}

/** When the person's working day ends on the local date of a moment; null when they do not work on it. */
export function personDayEnd(workshop: WorkshopState, personId: PersonId, at: Moment): Moment | null {
  return endOfWorkingDay(personCalendar(workshop, personId), localDateOf(at, workshop.zone))
}

/**
 * How far a clock counts that runs from `start` to `until`: at most to the end of the person's day. Time past that end,
 * or on a day off, counts once it is confirmed.
 */
export function clockCountsTo(
  workshop: WorkshopState,
  personId: PersonId,
  start: Moment,
  until: Moment,
): Moment {
  const end = personDayEnd(workshop, personId, start) ?? start
  return Math.max(start, Math.min(until, end))
}

/** True from the start to the end of the person's working day, breaks included. */
export function isPersonIn(workshop: WorkshopState, personId: PersonId, at: Moment): boolean {
  const end = personDayEnd(workshop, personId, at)
  if (end === null || at >= end) return false
  const midnight = dayStart(localDateOf(at, workshop.zone), workshop.zone)
  const start = nextWorkingMoment(personCalendar(workshop, personId), midnight)
  return start.ok && start.value <= at
}

/** Calendars work their days out once, so they are kept as long as the workshop state they were made from. */
const calendarsByWorkshop = new WeakMap<WorkshopState, Map<PersonId, WorkingCalendar>>()

function calendarsOf(workshop: WorkshopState): Map<PersonId, WorkingCalendar> {
  const known = calendarsByWorkshop.get(workshop)
  if (known !== undefined) return known
  const calendars = new Map<PersonId, WorkingCalendar>()
  calendarsByWorkshop.set(workshop, calendars)
  return calendars
}
