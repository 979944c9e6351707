import type { Moment } from '../../car.ts'
import { dayWords } from '../../text/words.ts'
import { nextWorkingMoment, type WorkingCalendar } from '../../time/calendar.ts'
import { addDays } from '../../time/local-date.ts'
import { dayEnd, dayStart, localDateOf } from '../../time/zone.ts'
import { workshopCalendar } from '../../value/planned-value.ts'
import type { WorkshopState } from '../../workshop.ts'
import { TICK_MINUTES } from '../problem.ts'

export const TICK_MS = TICK_MINUTES * 60_000
export const TICKS_PER_HOUR = 60 / TICK_MINUTES

/** Moments and local dates as ticks of one problem. */
export interface TickScale {
  readonly now: Moment
  readonly zone: string
  /** Epoch ms of tick 0. */
  readonly origin: Moment
  /** The local date now. */
  readonly today: string
  /** The workshop's week and holidays. */
  readonly calendar: WorkingCalendar
  /** The first tick that is not before a moment; negative for the past. */
  readonly from: (moment: Moment) => number
  readonly moment: (tick: number) => Moment
  readonly dateOf: (tick: number) => string
  readonly dayStart: (date: string) => number
  /** The first tick after a local date. */
  readonly dayEnd: (date: string) => number
  /** When work begins on a local date or, on a day off, on the next one after it. */
  readonly workStart: (date: string) => number
  /** 'Thu 26 Nov'. */
  readonly words: (date: string) => string
}

export function createTickScale(workshop: WorkshopState, now: Moment): TickScale {
  const { zone } = workshop
  const origin = Math.ceil(now / TICK_MS) * TICK_MS
  const today = localDateOf(now, zone)
  const calendar = workshopCalendar(workshop)
  const from = (moment: Moment): number => Math.ceil((moment - origin) / TICK_MS)
  const moment = (tick: number): Moment => origin + tick * TICK_MS
  return {
    now,
    zone,
    origin,
    today,
    calendar,
    from,
    moment,
    dateOf: (tick) => localDateOf(moment(tick), zone),
    dayStart: (date) => from(dayStart(date, zone)),
    dayEnd: (date) => from(dayEnd(date, zone)),
    workStart: (date) => {
      const midnight = dayStart(date, zone)
      const begins = nextWorkingMoment(calendar, midnight)
      return from(begins.ok ? begins.value : midnight)
    },
    words: (date) => dayWords(date, Number(today.slice(0, 4))),
  }
}

/** The date itself or, once it is here without what was expected on it, the day after today. */
export function stillExpected(date: string, { today }: Pick<TickScale, 'today'>): string {
  return date > today ? date : addDays(today, 1)
}
