import type { Moment } from '../car.ts'
import { type WorkingCalendar, workingHoursBetween } from '../time/calendar.ts'
import { dateToIsoWeek, formatIsoWeek } from '../time/iso-week.ts'
import { addDays, daysBetween } from '../time/local-date.ts'
import { dayStart, localDateOf } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import { type EarnedSchedule, earnedSchedule } from './earned-value.ts'
import { workshopCalendar } from './planned-value.ts'
import { type DayHours, DAYS_PER_WEEK, mondayOf, sumByWeek } from './value-days.ts'

export interface ValueWeeksInput {
  /** PV by day. */
  readonly planned: readonly DayHours[]
  /** EV by day, of the work that has a planned value. */
  readonly earned: readonly DayHours[]
  /** AC by day. */
  readonly spent: readonly DayHours[]
  /** What is asked about: later weeks have a planned value only. */
  readonly at: Moment
  readonly workshop: WorkshopState
}

/** Person-hours, cumulative to the end of a week; earned and spent of the week that `at` lies in are those to `at`. */
export interface ValueWeek {
  /** YYYY-Www */
  readonly week: string
  /** PV */
  readonly planned: number
  /** EV; null for weeks to come. */
  readonly earned: number | null
  /** AC; null for weeks to come. */
  readonly spent: number | null
  /** In weeks of the plan, at the end of the week or at `at`; null for weeks to come and before the plan's first week. */
  readonly schedule: EarnedSchedule | null
}

/**
 * The curves of planned, earned and spent hours over weeks, with earned schedule (Lipke 2003) in weeks of the plan. Actual
 * time counts from the Monday of the first week with planned work, a week begun by the share of its working hours
 * gone by. It stands still from the end of the week in which the last of what was planned was earned, as periods are
 * counted whole, so that the figures of a finished job stay.
 */
export function valueWeeks(input: ValueWeeksInput): readonly ValueWeek[] {
  const { planned, earned, spent, at, workshop } = input
  const today = localDateOf(at, workshop.zone)
  const done = earned.filter(({ date }) => date <= today)
  const used = spent.filter(({ date }) => date <= today)
  const mondays = mondaysOf([...planned, ...done, ...used, { date: today, hours: 0 }])
  const plan = planOf(planned, input)
  const thisMonday = mondayOf(today)
  return mondays.map((monday) => {
    const until = addDays(monday, DAYS_PER_WEEK)
    const isToCome = monday > thisMonday
    const ev = sumBefore(done, until)
    const moment = Math.min(at, dayStart(until, workshop.zone))
    return {
      week: formatIsoWeek(dateToIsoWeek(monday)),
      planned: sumBefore(planned, until),
      earned: isToCome ? null : ev,
      spent: isToCome ? null : sumBefore(used, until),
      schedule: isToCome || plan === null || monday < plan.monday ? null : scheduleAt(plan, ev, moment),
    }
  })
}

interface PlanOfWeeks {
  /** Of the first week with planned work. */
  readonly monday: string
  /** Cumulative PV at the end of each week. */
  readonly values: readonly number[]
  /** The end of the week in which the last of it was earned; null while some is not. */
  readonly finished: Moment | null
  readonly calendar: WorkingCalendar
  readonly zone: string
}

function planOf(planned: readonly DayHours[], { earned, workshop }: ValueWeeksInput): PlanOfWeeks | null {
  const weeks = sumByWeek(planned)
  const [first] = weeks
  if (first === undefined) return null
  let sum = 0
  const values = weeks.map(({ hours }) => (sum += hours))
  return {
    monday: first.monday,
    values,
    finished: finishedAt(earned, sum, workshop.zone),
    calendar: workshopCalendar(workshop),
    zone: workshop.zone,
  }
}

function finishedAt(earned: readonly DayHours[], whole: number, zone: string): Moment | null {
  let sum = 0
  for (const { date, hours } of earned.toSorted((a, b) => (a.date < b.date ? -1 : 1))) {
    sum += hours
    if (sum >= whole - ROUNDING) return dayStart(addDays(mondayOf(date), DAYS_PER_WEEK), zone)
  }
  return null
}

/** Person-hours that sums of shares may miss by; without it a pause in the plan would be missed by a week. */
const ROUNDING = 1e-6

function scheduleAt(plan: PlanOfWeeks, earned: number, at: Moment): EarnedSchedule | null {
  const actualTime = weeksGone(plan, plan.finished === null ? at : Math.min(at, plan.finished))
  const reached = plan.values.find((value) => Math.abs(value - earned) <= ROUNDING)
  return earnedSchedule({ plannedValues: plan.values, earnedValue: reached ?? earned, actualTime })
}

/** Weeks from the plan's first Monday; of a week without working hours the days count. */
function weeksGone({ monday, calendar, zone }: PlanOfWeeks, at: Moment): number {
  const start = dayStart(monday, zone)
  if (at <= start) return 0
  const whole = Math.floor(daysBetween(monday, localDateOf(at, zone)) / DAYS_PER_WEEK)
  const from = addDays(monday, whole * DAYS_PER_WEEK)
  const [since, until] = [dayStart(from, zone), dayStart(addDays(from, DAYS_PER_WEEK), zone)]
  const hours = workingHoursBetween(calendar, since, until)
  const part = hours > 0 ? workingHoursBetween(calendar, since, at) / hours : (at - since) / (until - since)
  return whole + part
}

const sumBefore = (days: readonly DayHours[], until: string): number =>
  days.reduce((sum, { date, hours }) => (date < until ? sum + hours : sum), 0)

const mondaysOf = (days: readonly DayHours[]): readonly string[] =>
  sumByWeek(days).map(({ monday }) => monday)
