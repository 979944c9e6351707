import { ok, refuse, type Result } from '../refusal.ts'
import { daysBetween } from './local-date.ts'
import { dayEnd, dayStart, localToInstant, MS_PER_DAY, MS_PER_HOUR } from './zone.ts'

/** When somebody works: the workshop's week and holidays, with a person's own absences. */
export interface CalendarPlan {
  /** IANA zone of the wall clock that the spans are read on. */
  readonly zone: string
  /** Seven days, Monday first. A night shift is two spans: one to 24:00, one from 00:00 on the next day. */
  readonly week: readonly (readonly WorkingSpan[])[]
  /** Local dates without work. */
  readonly holidays: readonly string[]
  /** Local dates, the first and the last included. */
  readonly absences: readonly { readonly from: string; readonly to: string }[]
  /** Worked on top of the week, on holidays too; not on absences. */
  readonly extra: readonly ExtraTime[]
}

/** The same span of the clock on some days of the week, from the first to the last local date, both included. */
export interface ExtraTime {
  readonly from: string
  readonly to: string
  /** 1 Monday to 7 Sunday. */
  readonly weekdays: readonly number[]
  readonly span: WorkingSpan
}

export interface WorkingSpan {
  /** HH:MM */
  readonly from: string
  /** HH:MM, up to 24:00 */
  readonly to: string
}

/**
 * A plan made ready for reckoning. All its times are instants in epoch ms. Days are worked out once, when they are
 * first asked for, so keep one calendar for many questions.
 */
export interface WorkingCalendar {
  /** The working time of a day, counted from 1970-01-01 of the zone. */
  readonly day: (index: number) => CalendarDay
}

interface CalendarDay {
  readonly startMs: number
  readonly endMs: number
  /** In order, apart, none empty; end exclusive. */
  readonly spans: readonly Span[]
}

interface Span {
  readonly startMs: number
  readonly endMs: number
}

/** Overlapping and touching spans count once; a span that ends before it starts counts as nothing. */
export function createCalendar(plan: CalendarPlan): WorkingCalendar {
  const holidays = new Set(plan.holidays)
  const days = new Map<number, CalendarDay>()
  const day = (index: number): CalendarDay => {
    const known = days.get(index)
    if (known !== undefined) return known
    const worked = workOutDay(plan, holidays, index)
    days.set(index, worked)
    return worked
  }
  return { day }
}

/** The given instant if work goes on then, else when it next starts; refused when that is over 20 years away. */
export function nextWorkingMoment(calendar: WorkingCalendar, ms: number): Result<number> {
  const first = spansFrom(calendar, ms).next()
  return first.done === true ? noWorkingTime : ok(first.value.startMs)
}

/** When the last working span of a local date ends; null when nobody works on that date. */
export function endOfWorkingDay(calendar: WorkingCalendar, date: string): number | null {
  return calendar.day(dateToDayIndex(date)).spans.at(-1)?.endMs ?? null
}

/**
 * The earliest instant at which so many working hours have gone by since the given instant; work pauses outside
 * working time and goes on. Rounded to whole ms. No hours end at once, wherever that is. Refused: hours that are
 * negative or not finite, and work that would not be done within 20 years.
 */
export function addWorkingHours(calendar: WorkingCalendar, fromMs: number, hours: number): Result<number> {
  if (!(hours >= 0 && Number.isFinite(hours))) {
    return refuse('bad-input', 'Hours of work must be a number from 0 up.', 'Check the hours.')
  }
  let left = Math.round(hours * MS_PER_HOUR)
  if (left === 0) return ok(fromMs)
  for (const span of spansFrom(calendar, fromMs)) {
    const length = span.endMs - span.startMs
    if (left <= length) return ok(span.startMs + left)
    left -= length
  }
  return noWorkingTime
}

/** Working hours from the first instant to the second; negative when the second is earlier. */
export function workingHoursBetween(calendar: WorkingCalendar, fromMs: number, toMs: number): number {
  if (toMs < fromMs) return -workingHoursBetween(calendar, toMs, fromMs)
  const last = dayIndexAt(calendar, toMs)
  let worked = 0
  for (let index = dayIndexAt(calendar, fromMs); index <= last; index += 1) {
    for (const span of calendar.day(index).spans) {
      worked += Math.max(0, Math.min(span.endMs, toMs) - Math.max(span.startMs, fromMs))
    }
  }
  return worked / MS_PER_HOUR
}

/** The number of a local date for {@link WorkingCalendar.day}. */
export const dateToDayIndex = (date: string): number => daysBetween(EPOCH, date)

const EPOCH = '1970-01-01'

/** Bound of every search: 20 years of days. */
const SEARCH_DAYS = 7_305

const noWorkingTime = refuse(
  'bad-input',
  'This calendar has not enough working time in the next 20 years.',
  'Give it working hours in the week, or shorten the absence.',
)

/** Working spans from an instant on, the first one cut to begin there, over at most {@link SEARCH_DAYS} days. */
function* spansFrom(calendar: WorkingCalendar, ms: number): Generator<Span, void> {
  const first = dayIndexAt(calendar, ms)
  for (let index = first; index < first + SEARCH_DAYS; index += 1) {
    for (const span of calendar.day(index).spans) {
      if (span.endMs > ms) yield { startMs: Math.max(span.startMs, ms), endMs: span.endMs }
    }
  }
}

/** The local day that holds an instant: the UTC day or a neighbour of it, as UTC offsets stay under 24 h. */
function dayIndexAt(calendar: WorkingCalendar, ms: number): number {
  let index = Math.floor(ms / MS_PER_DAY)
  while (calendar.day(index).startMs > ms) index -= 1
  while (calendar.day(index).endMs <= ms) index += 1
  return index
}

function workOutDay(plan: CalendarPlan, holidays: ReadonlySet<string>, index: number): CalendarDay {
  const bounds = dayBounds(plan.zone, index)
  const date = dayIndexToDate(index)
  const weekday = dayIndexToWeekday(index)
  const spans = plan.absences.some((absence) => holdsDate(absence, date))
    ? []
    : [
        ...(holidays.has(date) ? [] : (plan.week[weekday - 1] ?? [])),
        ...extraSpans(plan.extra, date, weekday),
      ]
  return { ...bounds, spans: mergeSpans(spans.map((span) => spanToInstants(span, date, plan.zone, bounds))) }
}

type DayBounds = Pick<CalendarDay, 'startMs' | 'endMs'>

/** Days are the same for everybody in a zone, and finding where one begins is what costs most. */
const boundsByZone = new Map<string, Map<number, DayBounds>>()

function dayBounds(zone: string, index: number): DayBounds {
  const known = boundsByZone.get(zone) ?? new Map<number, DayBounds>()
  boundsByZone.set(zone, known)
  const startMs = known.get(index - 1)?.endMs
  const bounds = known.get(index) ?? {
    startMs: startMs ?? dayStart(dayIndexToDate(index), zone),
    endMs: dayEnd(dayIndexToDate(index), zone),
  }
  known.set(index, bounds)
  return bounds
}

/** 1 Monday to 7 Sunday; 1970-01-01 was a Thursday. */
const dayIndexToWeekday = (index: number): number => ((((index + 3) % 7) + 7) % 7) + 1

/** The UTC day of that number bears the same date. */
const dayIndexToDate = (index: number): string => new Date(index * MS_PER_DAY).toISOString().slice(0, 10)

function extraSpans(extra: readonly ExtraTime[], date: string, weekday: number): readonly WorkingSpan[] {
  return extra
    .filter((time) => holdsDate(time, date) && time.weekdays.includes(weekday))
    .map(({ span }) => span)
}

function holdsDate({ from, to }: { readonly from: string; readonly to: string }, date: string): boolean {
  return from <= date && date <= to
}

/** On a day of 24 hours the wall clock runs straight through. */
function spanToInstants({ from, to }: WorkingSpan, date: string, zone: string, day: DayBounds): Span {
  const isStraight = day.endMs - day.startMs === MS_PER_DAY
  const instant = (time: string): number =>
    isStraight ? day.startMs + clockMs(time) : localToInstant(date, time, zone)
  return { startMs: instant(from), endMs: instant(to) }
}

/** 'HH:MM' since midnight. */
function clockMs(time: string): number {
  const [hours, minutes] = time.split(':').map(Number) as [number, number]
  return hours * MS_PER_HOUR + (minutes * MS_PER_HOUR) / 60
}

function mergeSpans(spans: readonly Span[]): readonly Span[] {
  const merged: Span[] = []
  for (const span of spans.filter(isNotEmpty).toSorted((a, b) => a.startMs - b.startMs)) {
    const last = merged.at(-1)
    if (last === undefined || last.endMs < span.startMs) merged.push(span)
    else merged[merged.length - 1] = { startMs: last.startMs, endMs: Math.max(last.endMs, span.endMs) }
  }
  return merged
}

function isNotEmpty(span: Span): boolean {
  return span.endMs > span.startMs
}
