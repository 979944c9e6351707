import { createCalendar, type CalendarPlan, type WorkingCalendar } from '../../domain/time/calendar.ts'
import { localToInstant } from '../../domain/time/zone.ts'

export const london = 'Europe/London'

export const at = (date: string, time: string, zone = london): number => localToInstant(date, time, zone)

export const fullDay = [
  { from: '08:00', to: '12:30' },
  { from: '13:00', to: '16:30' },
]

/** Eight hours a day with a break at noon, Friday until noon, in London. */
const plainWeek: CalendarPlan = {
  zone: london,
  week: [fullDay, fullDay, fullDay, fullDay, [{ from: '08:00', to: '12:30' }], [], []],
  holidays: [],
  absences: [],
  extra: [],
}

export const calendarWith = (changes: Partial<CalendarPlan> = {}): WorkingCalendar =>
  createCalendar({ ...plainWeek, ...changes })
