import { eachDayOfInterval, isWeekend } from 'date-fns'

import { describe, expect, test } from 'vitest'
import {
  addWorkingHours,
  endOfWorkingDay,
  nextWorkingMoment,
  workingHoursBetween,
  type CalendarPlan,
} from '../../../domain/time/calendar.ts'
import { at, calendarWith, fullDay } from '../../support/plain-week.ts'

const nightShift = calendarWith({
  week: Array.from({ length: 7 }, () => [
    { from: '22:00', to: '24:00' },
    { from: '00:00', to: '06:00' },
  ]),
})

describe('time on top of the week', () => {
  const saturdays = {
    from: '2026-11-28',
    to: '2026-12-12',
    weekdays: [6],
    span: { from: '08:00', to: '12:00' },
  }
  const evening = {
    from: '2026-11-26',
    to: '2026-11-26',
    weekdays: [4],
    span: { from: '16:30', to: '19:00' },
  }
  const longer = (changes: Partial<CalendarPlan> = {}) =>
    calendarWith({ extra: [saturdays, evening], ...changes })
  const hoursOn = (date: string, calendar = longer()) =>
    workingHoursBetween(calendar, at(date, '00:00'), at(date, '24:00'))

  test('is worked on its days of the week, from the first date to the last', () => {
    const dates = ['2026-11-21', '2026-11-28', '2026-12-12', '2026-12-19', '2026-11-29']
    expect(dates.map((date) => hoursOn(date))).toEqual([0, 4, 4, 0, 0])
  })

  test('makes a day longer, and the day ends with it', () => {
    expect(hoursOn('2026-11-26')).toBe(10.5)
    expect(endOfWorkingDay(longer(), '2026-11-26')).toBe(at('2026-11-26', '19:00'))
  })

  test('is worked on a holiday, which is free else, and never during an absence', () => {
    const changes = { holidays: ['2026-11-26', '2026-11-28'] }
    expect(['2026-11-26', '2026-11-28'].map((date) => hoursOn(date, longer(changes)))).toEqual([2.5, 4])
    const away = longer({ absences: [{ from: '2026-11-26', to: '2026-11-28' }] })
    expect(['2026-11-26', '2026-11-28'].map((date) => hoursOn(date, away))).toEqual([0, 0])
  })

  test('counts once where it lies within the week', () => {
    const within = { ...evening, span: { from: '11:00', to: '14:00' } }
    expect(hoursOn('2026-11-26', longer({ extra: [within] }))).toBe(8.5)
  })
})

describe('a working week', () => {
  const calendar = calendarWith()

  test('work goes on from the start of a span up to its end, and not at the break', () => {
    const times = ['07:59', '08:00', '12:29', '12:30', '13:00', '16:29', '16:30']
    const moments = times.map((time) => at('2026-11-26', time))
    expect(moments.map((moment) => workingHoursBetween(calendar, moment, moment + 1) > 0)).toEqual([
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
