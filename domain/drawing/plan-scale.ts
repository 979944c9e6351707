import type { Moment } from '../car.ts'
import { addDays } from '../time/local-date.ts'
import { dayEnd, dayStart, MS_PER_DAY } from '../time/zone.ts'
import type { PlanDay } from '../views/plan-view-shapes.ts'

/** Time laid along a line: x is 0 at `from`. */
export interface TimeScale {
  readonly from: Moment
  readonly to: Moment
  /** Drawing units for 24 hours of the clock. */
  readonly perDay: number
}

/** How many days the width of the drawing may show, from the closest to the widest: a day to six months. */
export const ZOOM_STEPS: readonly number[] = [1, 2, 4, 7, 14, 28, 56, 91, 183]
export const LEAST_DAYS = 1
export const MOST_DAYS = 183

export const xOf = (scale: TimeScale, at: Moment): number => ((at - scale.from) / MS_PER_DAY) * scale.perDay

export const momentAt = (scale: TimeScale, x: number): Moment => scale.from + (x / scale.perDay) * MS_PER_DAY

export const scaleWidth = (scale: TimeScale): number => xOf(scale, scale.to)

/** @param days that the width shows */
export function scaleFor(days: readonly PlanDay[], width: number, daysShown: number): TimeScale {
  const first = days[0]
  const last = days.at(-1)
  if (first === undefined || last === undefined) throw new RangeError('A plan needs at least one day.')
  return { from: first.from, to: last.to, perDay: width / daysShown }
}

/** The next step of the zoom from what is shown now; a factor between two steps goes on to the next of them. */
export function zoomStep(daysShown: number, direction: 'closer' | 'wider'): number {
  if (direction === 'closer') return ZOOM_STEPS.findLast((days) => days < daysShown - NEAR) ?? LEAST_DAYS
  return ZOOM_STEPS.find((days) => days > daysShown + NEAR) ?? MOST_DAYS
}

/** A step that is this near counts as reached. */
const NEAR = 0.01

/** Any zoom between the two ends, for the wheel: `factor` over 1 shows more days. */
export const zoomBy = (daysShown: number, factor: number): number =>
  Math.min(MOST_DAYS, Math.max(LEAST_DAYS, daysShown * factor))

/**
 * The days of a plan with as many ordinary ones behind them as it takes to hold `until`: a promised date or a late finish
 * may lie far past the last planned work. Days past the plan's own show no working time of their own but repeat that of a
 * week before; none are added when the plan has no days.
 */
export function daysUntil(days: readonly PlanDay[], until: Moment, zone: string): readonly PlanDay[] {
  const all = [...days]
  for (let last = all.at(-1); last !== undefined && last.to <= until; last = all.at(-1)) {
    all.push(ordinaryDay(addDays(last.date, 1), all.at(-7), zone))
  }
  return all
}

function ordinaryDay(date: string, weekBefore: PlanDay | undefined, zone: string): PlanDay {
  const from = dayStart(date, zone)
  const shift = from - (weekBefore?.from ?? from)
  const spans = weekBefore?.holiday === null ? weekBefore.spans : []
  return {
    date,
    from,
    to: dayEnd(date, zone),
    spans: spans.map((span) => ({ from: span.from + shift, to: span.to + shift })),
    holiday: null,
  }
}

/** The day that holds a moment; the first or the last one for moments outside of them. */
export function dayAt(days: readonly PlanDay[], at: Moment): PlanDay {
  let low = 0
  let high = days.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((days[middle]?.from ?? Infinity) <= at) low = middle
    else high = middle - 1
  }
  const day = days[low]
  if (day === undefined) throw new RangeError('A plan needs at least one day.')
  return day
}
