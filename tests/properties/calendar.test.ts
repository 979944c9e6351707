import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  addWorkingHours,
  createCalendar,
  endOfWorkingDay,
  nextWorkingMoment,
  workingHoursBetween,
  type CalendarPlan,
  type WorkingCalendar,
} from '../../domain/time/calendar.ts'
import { weekdayNumber } from '../../domain/time/local-date.ts'
import { dayStart, instantToLocal } from '../../domain/time/zone.ts'
import { at, calendarWith, london } from '../support/plain-week.ts'

const zones = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata', 'Pacific/Auckland']
const hour = (value: number): string => `${String(value).padStart(2, '0')}:00`
const anySpan = fc
  .tuple(fc.integer({ min: 0, max: 24 }), fc.integer({ min: 0, max: 24 }))
  .filter(([from, to]) => from < to)
  .map(([from, to]) => ({ from: hour(from), to: hour(to) }))
const anyDate = fc.integer({ min: 1, max: 28 }).map((day) => `2026-04-${String(day).padStart(2, '0')}`)
const anyPlan = fc.record<CalendarPlan>({
  zone: fc.constantFrom(...zones),
  week: fc
    .array(fc.array(anySpan, { maxLength: 3 }), { minLength: 7, maxLength: 7 })
    .filter((week) => week.flat().length > 0),
  holidays: fc.array(anyDate, { maxLength: 3 }),
  absences: fc.array(fc.record({ from: anyDate, to: anyDate }), { maxLength: 2 }),
  extra: fc.array(
    fc.record({
      from: anyDate,
      to: anyDate,
      weekdays: fc.array(fc.integer({ min: 1, max: 7 }), { maxLength: 7 }),
      span: anySpan,
    }),
    { maxLength: 2 },
  ),
})
const halfHour = 1_800_000
/** From March to November 2026, so that both clock changes of every zone lie in it. */
const anyHalfHour = fc
  .integer({ min: 0, max: 250 * 48 })
  .map((steps) => Date.UTC(2026, 2, 1) + steps * halfHour)
const anyHours = fc.double({ min: 0, max: 300, noNaN: true })
const valueOf = (result: ReturnType<typeof addWorkingHours>): number => {
  if (!result.ok) throw new Error(result.refusal.message)
  return result.value
}

describe('any calendar', () => {
  test('so many hours added are so many hours between, to the millisecond', () => {
    fc.assert(
      fc.property(anyPlan, anyHalfHour, anyHours, (plan, start, hours) => {
        const calendar = createCalendar(plan)
        const end = valueOf(addWorkingHours(calendar, start, hours))
        expect(Math.abs(workingHoursBetween(calendar, start, end) - hours)).toBeLessThan(1 / 3_600_000)
      }),
    )
  })

  test('more hours never end earlier, and a later start never ends earlier', () => {
    fc.assert(
      fc.property(anyPlan, anyHalfHour, anyHours, anyHours, (plan, start, hours, more) => {
        const calendar = createCalendar(plan)
        const end = valueOf(addWorkingHours(calendar, start, hours))
        expect(valueOf(addWorkingHours(calendar, start, hours + more))).toBeGreaterThanOrEqual(end)
        const later = start + Math.floor(more * 3_600_000)
        expect(valueOf(addWorkingHours(calendar, later, hours))).toBeGreaterThanOrEqual(end)
      }),
    )
  })

  test('hours over two stretches are the hours over the whole', () => {
    fc.assert(
      fc.property(anyPlan, anyHalfHour, anyHalfHour, anyHalfHour, (plan, a, b, c) => {
        const calendar = createCalendar(plan)
        const between = (from: number, to: number): number => workingHoursBetween(calendar, from, to)
        expect(between(a, b) + between(b, c)).toBeCloseTo(between(a, c), 9)
      }),
    )
  })

  test('work ends at a moment up to which somebody works', () => {
    fc.assert(
      fc.property(anyPlan, anyHalfHour, anyHours, (plan, start, hours) => {
        const calendar = createCalendar(plan)
        const end = valueOf(addWorkingHours(calendar, start, hours + 0.01))
        expect(isWorkedAt(calendar, end - 1)).toBe(true)
        const next = valueOf(nextWorkingMoment(calendar, start))
        expect(isWorkedAt(calendar, next)).toBe(true)
        expect(workingHoursBetween(calendar, start, next)).toBe(0)
      }),
    )
  })

  test('counting half hours on the wall clock gives the same sum, clock changes included', () => {
    fc.assert(
      fc.property(anyPlan, anyHalfHour, fc.integer({ min: 0, max: 240 }), (plan, start, steps) => {
        const instants = Array.from({ length: steps }, (_, step) => start + step * halfHour)
        const counted = instants.filter((ms) => isWorkedByWallClock(plan, ms)).length / 2
        const end = start + steps * halfHour
        expect(workingHoursBetween(createCalendar(plan), start, end)).toBe(counted)
      }),
    )
  })

  test('near the clock changes, too, wall clock and calendar agree', () => {
    const changes = [Date.UTC(2026, 2, 29), Date.UTC(2026, 9, 24), Date.UTC(2026, 2, 8), Date.UTC(2026, 3, 4)]
    fc.assert(
      fc.property(anyPlan, fc.constantFrom(...changes), (plan, change) => {
        const start = change - 24 * halfHour
        const instants = Array.from({ length: 144 }, (_, step) => start + step * halfHour)
        const calendar = createCalendar(plan)
        const differing = instants.filter((ms) => isWorkedAt(calendar, ms) !== isWorkedByWallClock(plan, ms))
        expect(differing).toEqual([])
      }),
    )
  })
})

const isWorkedAt = (calendar: WorkingCalendar, ms: number): boolean =>
  workingHoursBetween(calendar, ms, ms + 1) > 0

/** The plain reading of a plan; whole-hour spans only, as those never end inside an hour that comes twice. */
function isWorkedByWallClock(plan: CalendarPlan, ms: number): boolean {
  const { date, time } = instantToLocal(ms, plan.zone)
  if (plan.absences.some(({ from, to }) => from <= date && date <= to)) return false
  const weekday = weekdayNumber(date)
  const longer = plan.extra.some(
    ({ from, to, weekdays, span }) =>
      from <= date && date <= to && weekdays.includes(weekday) && span.from <= time && time < span.to,
  )
  if (longer || plan.holidays.includes(date)) return longer
  return plan.week[weekday - 1]?.some(({ from, to }) => from <= time && time < to) ?? false
}

test('a day of a calendar starts where the day of the zone starts', () => {
  const allDay = Array.from({ length: 7 }, () => [{ from: '00:00', to: '24:00' }])
  const calendar = calendarWith({ week: allDay })
  expect(endOfWorkingDay(calendar, '2026-10-25')).toBe(dayStart('2026-10-26', london))
  expect(workingHoursBetween(calendar, at('2026-10-25', '00:00'), at('2026-10-26', '00:00'))).toBe(25)
})
