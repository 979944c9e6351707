import { MONTHS, WEEKDAYS } from '../text/words.ts'
import { dateToIsoWeek } from '../time/iso-week.ts'
import { weekdayNumber } from '../time/local-date.ts'
import { localToInstant, MS_PER_DAY, MS_PER_HOUR } from '../time/zone.ts'
import type { PlanDay } from '../views/plan-view-shapes.ts'
import { textWidth } from './text-fit.ts'
import { type TimeScale, xOf } from './plan-scale.ts'

/** One division of the head of the plan, from its line to that of the next. */
export interface Tick {
  readonly x: number
  readonly width: number
  /** What is written; empty where there is no room for it. */
  readonly words: string
}

export interface Ticks {
  /** Upper line: days, weeks or months. */
  readonly large: readonly Tick[]
  /** Lower line: hours, days or weeks. */
  readonly small: readonly Tick[]
}

/** Up to so many units a day the head shows months and weeks, up to so many weeks and days, and past that days and hours. */
const MONTHS_BELOW = 13
const HOURS_FROM = 420

/** The divisions of the head at this scale; their words give way where they do not fit. */
export function planTicks(days: readonly PlanDay[], scale: TimeScale, zone: string): Ticks {
  if (scale.perDay >= HOURS_FROM) {
    return {
      large: days.map((day) => tick(scale, [day], longDay(day.date))),
      small: hourTicks(days, scale, zone),
    }
  }
  const weeks = groups(days, (day) => weekName(day.date))
  if (scale.perDay < MONTHS_BELOW) {
    const months = groups(days, (day) => monthName(day.date))
    return {
      large: months.map(([name, of]) => tick(scale, of, name)),
      small: weeks.map(([name, of]) => tick(scale, of, name.replace('week ', ''))),
    }
  }
  return {
    large: weeks.map(([name, of]) => tick(scale, of, name)),
    small: days.map((day) => tick(scale, [day], dayName(day.date, scale.perDay))),
  }
}

/** Stretches in which nobody works: nights where they are wide enough to be seen, whole days off always. */
export function closedStretches(
  days: readonly PlanDay[],
  scale: TimeScale,
): readonly { readonly x: number; readonly width: number; readonly isDay: boolean }[] {
  const showsNights = scale.perDay >= NIGHTS_FROM
  return days.flatMap((day) => {
    const x = xOf(scale, day.from)
    const width = xOf(scale, day.to) - x
    if (day.spans.length === 0) return [{ x, width, isDay: true }]
    return showsNights ? nightsOf(day, scale) : []
  })
}

const NIGHTS_FROM = 40

function nightsOf(day: PlanDay, scale: TimeScale) {
  const first = day.spans[0]?.from ?? day.to
  const last = day.spans.at(-1)?.to ?? day.to
  const stretch = (from: number, to: number) => ({
    x: xOf(scale, from),
    width: xOf(scale, to) - xOf(scale, from),
    isDay: false,
  })
  return [stretch(day.from, first), stretch(last, day.to)].filter(({ width }) => width > 0)
}

function tick(scale: TimeScale, of: readonly PlanDay[], words: string): Tick {
  const first = of[0]
  const last = of.at(-1)
  if (first === undefined || last === undefined) throw new RangeError('A division needs a day.')
  return fitted(xOf(scale, first.from), xOf(scale, last.to), words)
}

function fitted(from: number, to: number, words: string): Tick {
  const width = to - from
  return { x: from, width, words: textWidth(words, WORDS_SIZE) + 10 <= width ? words : '' }
}

const WORDS_SIZE = 13

/** Hours that divide the day into parts of at least 44 units. */
function hourTicks(days: readonly PlanDay[], scale: TimeScale, zone: string): readonly Tick[] {
  const step = [1, 2, 3, 4, 6].find((hours) => (hours / 24) * scale.perDay >= 44) ?? 12
  const starts = days.flatMap((day) =>
    Array.from({ length: 24 / step }, (_, index) => ({
      at: hourOf(day, index * step, zone),
      hour: index * step,
    })),
  )
  return starts.flatMap(({ at, hour }, index) => {
    const end = starts[index + 1]?.at ?? scale.to
    // When the clocks go forward an hour that is skipped starts with the next.
    return end > at ? [fitted(xOf(scale, at), xOf(scale, end), `${String(hour).padStart(2, '0')}:00`)] : []
  })
}

/** Counted where the day has 24 hours: the zone is only asked on the two days that the clocks change. */
function hourOf(day: PlanDay, hour: number, zone: string): number {
  const isWhole = day.to - day.from === MS_PER_DAY
  return isWhole
    ? day.from + hour * MS_PER_HOUR
    : localToInstant(day.date, `${String(hour).padStart(2, '0')}:00`, zone)
}

function groups(days: readonly PlanDay[], keyOf: (day: PlanDay) => string) {
  const found: [string, PlanDay[]][] = []
  for (const day of days) {
    const key = keyOf(day)
    const last = found.at(-1)
    if (last?.[0] === key) last[1].push(day)
    else found.push([key, [day]])
  }
  return found
}

const weekName = (date: string): string => `week ${dateToIsoWeek(date).week}`
const monthName = (date: string): string => `${MONTHS[Number(date.slice(5, 7)) - 1]} ${date.slice(0, 4)}`
const weekdayName = (date: string): string => WEEKDAYS[weekdayNumber(date) - 1] ?? ''
const dayOfMonth = (date: string): number => Number(date.slice(8))

const longDay = (date: string): string =>
  `${weekdayName(date)} ${dayOfMonth(date)} ${MONTHS[Number(date.slice(5, 7)) - 1]}`

function dayName(date: string, perDay: number): string {
  if (perDay >= 84) return longDay(date)
  if (perDay >= 56) return `${weekdayName(date)} ${dayOfMonth(date)}`
  return String(dayOfMonth(date))
}
