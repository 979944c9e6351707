import type { Moment } from '../car.ts'
import { dateToIsoWeek, formatIsoWeek } from '../time/iso-week.ts'
import { addDays } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import type { EarnedSchedule } from './earned-value.ts'
import { scheduleAt, scheduleOn, schedulePlan, type SchedulePlan } from './schedule-plan.ts'
import { type DayHours, DAYS_PER_WEEK, mondayOf, sumByWeek } from './week-hours.ts'

export interface ValueWeeksInput {
  /** PV by day. */
  readonly planned: readonly DayHours[]
  /** EV by day. */
  readonly earned: readonly DayHours[]
  /** EV by day, of the work that has a planned value. */
  readonly earnedOfPlanned: readonly DayHours[]
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
  /** EV of the work that has a planned value, to be compared with it; null for weeks to come. */
  readonly earnedOfPlanned: number | null
  /** AC; null for weeks to come. */
  readonly spent: number | null
  /** In weeks of the plan, at the end of the week or at `at`; null for weeks to come and before the plan's first week. */
  readonly schedule: EarnedSchedule | null
}

/** The curves of planned, earned and spent hours over weeks, with earned schedule; see {@link scheduleAt}. */
export function valueWeeks(input: ValueWeeksInput): readonly ValueWeek[] {
  const { planned, earned, earnedOfPlanned, spent, at, workshop } = input
  const today = localDateOf(at, workshop.zone)
  const byNow = (days: readonly DayHours[]) => days.filter(({ date }) => date <= today)
  const [done, doneOfPlanned, used] = [byNow(earned), byNow(earnedOfPlanned), byNow(spent)]
  const plan = schedulePlan(planned, earnedOfPlanned)
  const thisMonday = mondayOf(today)
  return mondaysOf([...planned, ...done, ...used, { date: today, hours: 0 }]).map((monday) => {
    const until = addDays(monday, DAYS_PER_WEEK)
    const isToCome = monday > thisMonday
    const ev = sumBefore(doneOfPlanned, until)
    const scheduleThen = (of: SchedulePlan) =>
      monday === thisMonday ? scheduleAt(at, workshop)(of, ev) : scheduleOn(of, ev, until)
    const hasSchedule = !isToCome && plan !== null && monday >= plan.monday
    return {
      week: formatIsoWeek(dateToIsoWeek(monday)),
      planned: sumBefore(planned, until),
      earned: isToCome ? null : sumBefore(done, until),
      earnedOfPlanned: isToCome ? null : ev,
      spent: isToCome ? null : sumBefore(used, until),
      schedule: hasSchedule ? scheduleThen(plan) : null,
    }
  })
}

const sumBefore = (days: readonly DayHours[], until: string): number =>
  days.reduce((sum, { date, hours }) => (date < until ? sum + hours : sum), 0)

const mondaysOf = (days: readonly DayHours[]): readonly string[] =>
  sumByWeek(days).map(({ monday }) => monday)
