import type { Moment } from '../car.ts'
import { workingHoursBetween } from '../time/calendar.ts'
import { addDays } from '../time/local-date.ts'
import { dayStart, localDateOf, MS_PER_HOUR } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import { type EarnedSchedule, earnedSchedule } from './earned-value.ts'
import { workshopCalendar } from './planned-value.ts'
import { type DayHours, DAYS_PER_WEEK, mondayOf, sumByWeek } from './week-hours.ts'

/** What the earned schedule of a visit goes by, whatever the time; plain, so that a table can hold it. */
export interface SchedulePlan {
  /** Local date of the first Monday of the weeks with planned work. */
  readonly monday: string
  /** PV in person-hours, cumulative to the end of each week. */
  readonly values: readonly number[]
  /** The Monday after the week in which the last of it was earned; null while some is not. */
  readonly finished: string | null
}

/** Null where nothing is planned. `earned` is that of the planned work. */
export function schedulePlan(planned: readonly DayHours[], earned: readonly DayHours[]): SchedulePlan | null {
  const weeks = sumByWeek(planned)
  const [first] = weeks
  if (first === undefined) return null
  let sum = 0
  const values = weeks.map(({ hours }) => (sum += hours))
  return { monday: first.monday, values, finished: finishedOn(earned, sum) }
}

/** The earned schedule at one moment, EV in person-hours; null before the plan's first week. */
export type ScheduleAt = (plan: SchedulePlan, earned: number) => EarnedSchedule | null

/**
 * Earned schedule (Lipke 2003) in weeks of the plan. Actual time counts from the Monday of the first week with planned work,
 * a week begun by the share of the workshop's working hours gone by. It stands still from the end of the week in which
 * the last of what was planned was earned, as periods are counted whole, so that the figures of a finished job stay.
 */
export function scheduleAt(at: Moment, workshop: WorkshopState): ScheduleAt {
  const monday = mondayOf(localDateOf(at, workshop.zone))
  let part: number | null = null
  return (plan, earned) => {
    if (monday < plan.monday) return null
    if (isOver(plan, monday)) return scheduleOn(plan, earned, monday)
    part ??= partOfWeek(monday, at, workshop)
    return schedule(plan, earned, weeksBetween(plan.monday, monday) + part)
  }
}

/** The same at the start of a Monday. */
export function scheduleOn(plan: SchedulePlan, earned: number, monday: string): EarnedSchedule | null {
  const until = isOver(plan, monday) ? (plan.finished ?? monday) : monday
  return monday < plan.monday ? null : schedule(plan, earned, weeksBetween(plan.monday, until))
}

const isOver = ({ finished }: SchedulePlan, monday: string): boolean =>
  finished !== null && finished <= monday

function schedule({ values }: SchedulePlan, earned: number, actualTime: number): EarnedSchedule | null {
  const reached = values.find((value) => Math.abs(value - earned) <= ROUNDING)
  return earnedSchedule({ plannedValues: values, earnedValue: reached ?? earned, actualTime })
}

/** Person-hours that sums of shares may miss by; without it a pause in the plan would be missed by a week. */
const ROUNDING = 1e-6

function finishedOn(earned: readonly DayHours[], whole: number): string | null {
  let sum = 0
  for (const { date, hours } of earned.toSorted((a, b) => (a.date < b.date ? -1 : 1))) {
    sum += hours
    if (sum >= whole - ROUNDING) return addDays(mondayOf(date), DAYS_PER_WEEK)
  }
  return null
}

const weeksBetween = (monday: string, other: string): number =>
  Math.round((Date.parse(other) - Date.parse(monday)) / MS_PER_WEEK)

const MS_PER_WEEK = DAYS_PER_WEEK * 24 * MS_PER_HOUR

/** 0 to 1; of a week without working hours the days count. */
function partOfWeek(monday: string, at: Moment, workshop: WorkshopState): number {
  const since = dayStart(monday, workshop.zone)
  const until = dayStart(addDays(monday, DAYS_PER_WEEK), workshop.zone)
  const calendar = workshopCalendar(workshop)
  const hours = workingHoursBetween(calendar, since, until)
  return hours > 0 ? workingHoursBetween(calendar, since, at) / hours : (at - since) / (until - since)
}
