import { differenceInCalendarDays } from 'date-fns'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays, daysBetween, isLocalDate, weekdayNumber } from '../../../domain/time/local-date.ts'

describe('local dates', () => {
  test('only real days of the calendar are dates', () => {
    expect(['2026-11-26', '2024-02-29', '2000-02-29'].filter(isLocalDate)).toHaveLength(3)
    const wrong = [
      '2026-02-29',
      '1900-02-29',
      '2026-13-01',
      '2026-00-10',
      '2026-04-31',
      '2026-4-3',
      '26-04-03',
    ]
    expect([...wrong, '2026-11-26T10:00', ' 2026-11-26', '', 'today'].filter(isLocalDate)).toEqual([])
  })

  test('days are counted over months, leap years and clock changes', () => {
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01')
    expect(addDays('2024-03-01', -1)).toBe('2024-02-29')
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2)
    expect(daysBetween('2027-01-01', '2026-12-31')).toBe(-1)
  })

  test('26 November 2026 is a Thursday', () => {
    expect(weekdayNumber('2026-11-26')).toBe(4)
    expect(weekdayNumber('2026-11-29')).toBe(7)
  })

  test('adding days and counting them agree with date-fns', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 60_000 }),
        fc.integer({ min: -40_000, max: 40_000 }),
        (start, days) => {
          const from = addDays('1970-01-01', start)
          const to = addDays(from, days)
          expect(daysBetween(from, to)).toBe(days)
          expect(differenceInCalendarDays(new Date(`${to}T00:00`), new Date(`${from}T00:00`))).toBe(days)
        },
      ),
    )
  })
})
