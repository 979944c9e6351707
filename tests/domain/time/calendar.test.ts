import { eachDayOfInterval, isWeekend } from 'date-fns'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  addWorkingHours,
  createCalendar,
  endOfWorkingDay,
  isWorkingMoment,
  nextWorkingMoment,
  workingHoursBetween,
  type CalendarPlan,
  type WorkingCalendar,
} from '../../../domain/time/calendar.ts'
import { weekdayNumber } from '../../../domain/time/local-date.ts'
import { dayStart, instantToLocal, localToInstant } from '../../../domain/time/zone.ts'

const london = 'Europe/London'
const at = (date: string, time: string, zone = london): number => localToInstant(date, time, zone)
const fullDay = [
  { from: '08:00', to: '12:30' },
  { from: '13:00', to: '16:30' },
]
const plainWeek: CalendarPlan = {
  zone: london,
  week: [fullDay, fullDay, fullDay, fullDay, [{ from: '08:00', to: '12:30' }], [], []],
  holidays: [],
  absences: [],
}
const calendarWith = (changes: Partial<CalendarPlan> = {}): WorkingCalendar =>
  createCalendar({ ...plainWeek, ...changes })
const nightShift = calendarWith({
  week: Array.from({ length: 7 }, () => [
    { from: '22:00', to: '24:00' },
    { from: '00:00', to: '06:00' },
  ]),
})

describe('a working week', () => {
  const calendar = calendarWith()

  test('work goes on from the start of a span up to its end, and not at the break', () => {
    const times = ['07:59', '08:00', '12:29', '12:30', '13:00', '16:29', '16:30']
    expect(times.map((time) => isWorkingMoment(calendar, at('2026-11-26', time)))).toEqual([
      false,
      true,
      true,
      false,
      true,
      true,
      false,
    ])
  })

  test('work pauses overnight and over the weekend and goes on', () => {
    expect(addWorkingHours(calendar, at('2026-11-26', '16:00'), 1)).toEqual({
      ok: true,
      value: at('2026-11-27', '08:30'),
    })
    expect(addWorkingHours(calendar, at('2026-11-27', '12:00'), 1)).toEqual({
      ok: true,
      value: at('2026-11-30', '08:30'),
    })
  })

  test('work that fills the day ends with it, not on the next morning', () => {
    expect(addWorkingHours(calendar, at('2026-11-26', '08:00'), 8)).toEqual({
      ok: true,
      value: at('2026-11-26', '16:30'),
    })
  })

  test('no work ends at once, by night too', () => {
    const night = at('2026-11-28', '03:00')
    expect(addWorkingHours(calendar, night, 0)).toEqual({ ok: true, value: night })
  })

  test('the next working moment is now, after the break, or on Monday', () => {
    const next = (date: string, time: string) => nextWorkingMoment(calendar, at(date, time))
    expect(next('2026-11-26', '09:10')).toEqual({ ok: true, value: at('2026-11-26', '09:10') })
    expect(next('2026-11-26', '12:30')).toEqual({ ok: true, value: at('2026-11-26', '13:00') })
    expect(next('2026-11-27', '12:30')).toEqual({ ok: true, value: at('2026-11-30', '08:00') })
  })

  test('hours between two instants leave out breaks and nights', () => {
    expect(workingHoursBetween(calendar, at('2026-11-26', '12:00'), at('2026-11-27', '09:00'))).toBe(5)
    expect(workingHoursBetween(calendar, at('2026-11-27', '09:00'), at('2026-11-26', '12:00'))).toBe(-5)
    expect(workingHoursBetween(calendar, at('2026-11-23', '00:00'), at('2026-11-30', '00:00'))).toBe(36.5)
  })

  test('the working day ends with its last span, and not at all on a free day', () => {
    expect(endOfWorkingDay(calendar, '2026-11-26')).toBe(at('2026-11-26', '16:30'))
    expect(endOfWorkingDay(calendar, '2026-11-27')).toBe(at('2026-11-27', '12:30'))
    expect(endOfWorkingDay(calendar, '2026-11-28')).toBeNull()
  })

  test('overlapping spans count once and a span that ends before it starts counts as nothing', () => {
    const untidy = [
      { from: '13:00', to: '16:30' },
      { from: '08:00', to: '13:00' },
      { from: '09:00', to: '11:00' },
      { from: '18:00', to: '17:00' },
    ]
    const messy = calendarWith({ week: [untidy, untidy, untidy, untidy, untidy, untidy, untidy] })
    expect(workingHoursBetween(messy, at('2026-11-26', '00:00'), at('2026-11-27', '00:00'))).toBe(8.5)
    expect(endOfWorkingDay(messy, '2026-11-26')).toBe(at('2026-11-26', '16:30'))
  })
})

describe('holidays and absences', () => {
  test('nobody works on the public holidays of England in 2026', () => {
    // Published dates; the year has 261 weekdays (counted with date-fns), all eight holidays fall on one.
    const holidays = [
      '2026-01-01',
      '2026-04-03',
      '2026-04-06',
      '2026-05-04',
      '2026-05-25',
      '2026-08-31',
      '2026-12-25',
      '2026-12-28',
    ]
    const day = [{ from: '08:00', to: '16:00' }]
    const calendar = calendarWith({ week: [day, day, day, day, day, [], []], holidays })
    for (const date of holidays) expect(endOfWorkingDay(calendar, date)).toBeNull()
    const year = eachDayOfInterval({ start: new Date(2026, 0, 1), end: new Date(2026, 11, 31) })
    const weekdays = year.filter((date) => !isWeekend(date)).length
    expect(weekdays).toBe(261)
    expect(workingHoursBetween(calendar, at('2026-01-01', '00:00'), at('2027-01-01', '00:00')) / 8).toBe(253)
    expect(addWorkingHours(calendar, at('2026-12-24', '15:00'), 2)).toEqual({
      ok: true,
      value: at('2026-12-29', '09:00'),
    })
  })

  test('an absence holds from its first to its last day', () => {
    const calendar = calendarWith({ absences: [{ from: '2026-11-24', to: '2026-11-26' }] })
    const ends = ['2026-11-23', '2026-11-24', '2026-11-25', '2026-11-26', '2026-11-27'].map(
      (date) => endOfWorkingDay(calendar, date) !== null,
    )
    expect(ends).toEqual([true, false, false, false, true])
  })
})

describe('a calendar without working time', () => {
  const never = {
    ok: false,
    refusal: {
      code: 'bad-input',
      message: 'This calendar has not enough working time in the next 20 years.',
      next: 'Give it working hours in the week, or shorten the absence.',
    },
  }
  const start = at('2026-11-26', '10:00')

  test.each([
    ['an empty week', calendarWith({ week: [[], [], [], [], [], [], []] })],
    ['a week without days', calendarWith({ week: [] })],
    ['an absence without end', calendarWith({ absences: [{ from: '2026-01-01', to: '9999-12-31' }] })],
  ])('%s is refused instead of being searched for ever', (_, calendar) => {
    expect(nextWorkingMoment(calendar, start)).toEqual(never)
    expect(addWorkingHours(calendar, start, 1)).toEqual(never)
    expect(workingHoursBetween(calendar, start, start + 1e10)).toBe(0)
    expect(isWorkingMoment(calendar, start)).toBe(false)
  })

  test('work that is not done within 20 years is refused', () => {
    expect(addWorkingHours(calendarWith(), start, 1e6)).toEqual(never)
  })

  test.each([-1, Number.NaN, Infinity])('%d hours are refused', (hours) => {
    expect(addWorkingHours(calendarWith(), start, hours)).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', next: 'Check the hours.' },
    })
  })
})

describe('clock changes', () => {
  // London 2026: the clocks change on 29 March and 25 October at 01:00Z (IANA time zone database).
  test.each([
    ['2026-03-28', '2026-03-29', 7],
    ['2026-10-24', '2026-10-25', 9],
    ['2026-11-25', '2026-11-26', 8],
  ])('a night shift from %s to %s works %d h', (from, to, expected) => {
    expect(workingHoursBetween(nightShift, at(from, '22:00'), at(to, '06:00'))).toBe(expected)
    expect(addWorkingHours(nightShift, at(from, '22:00'), expected)).toEqual({
      ok: true,
      value: at(to, '06:00'),
    })
  })

  test('a day shift starts at the same wall time before and after', () => {
    const week = Array.from({ length: 7 }, () => fullDay)
    expect(addWorkingHours(calendarWith({ week }), at('2026-03-28', '08:00'), 9)).toEqual({
      ok: true,
      value: at('2026-03-29', '09:00'),
    })
  })

  test('a span inside the skipped hour is no working time', () => {
    const week = Array.from({ length: 7 }, () => [{ from: '01:15', to: '01:45' }])
    expect(endOfWorkingDay(calendarWith({ week }), '2026-03-29')).toBeNull()
  })
})

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
        expect(isWorkingMoment(calendar, end - 1)).toBe(true)
        const next = valueOf(nextWorkingMoment(calendar, start))
        expect(isWorkingMoment(calendar, next)).toBe(true)
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
        const differing = instants.filter(
          (ms) => isWorkingMoment(calendar, ms) !== isWorkedByWallClock(plan, ms),
        )
        expect(differing).toEqual([])
      }),
    )
  })
})

/** The plain reading of a plan; whole-hour spans only, as those never end inside an hour that comes twice. */
function isWorkedByWallClock(plan: CalendarPlan, ms: number): boolean {
  const { date, time } = instantToLocal(ms, plan.zone)
  if (plan.holidays.includes(date)) return false
  if (plan.absences.some(({ from, to }) => from <= date && date <= to)) return false
  return plan.week[weekdayNumber(date) - 1]?.some(({ from, to }) => from <= time && time < to) ?? false
}

test('a day of a calendar starts where the day of the zone starts', () => {
  const allDay = Array.from({ length: 7 }, () => [{ from: '00:00', to: '24:00' }])
  const calendar = calendarWith({ week: allDay })
  expect(endOfWorkingDay(calendar, '2026-10-25')).toBe(dayStart('2026-10-26', london))
  expect(workingHoursBetween(calendar, at('2026-10-25', '00:00'), at('2026-10-26', '00:00'))).toBe(25)
})
