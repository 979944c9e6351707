import { describe, expect, test } from 'vitest'
import {
  bytesWords,
  dateRangeWords,
  dayWords,
  fixed,
  hours,
  joinWords,
  mm,
  plural,
  rounded,
  runningTime,
  timeOfDay,
  weekWords,
} from '../../../domain/text/words.ts'

describe('words that screens and reports share', () => {
  test('a count carries its noun, one or many', () => {
    expect([0, 1, 2, 1.5].map((count) => plural('hour', count))).toEqual([
      '0 hours',
      '1 hour',
      '2 hours',
      '1.5 hours',
    ])
    expect(plural('hour', 1634)).toBe('1,634 hours')
    expect(plural('person', 2, 'people')).toBe('2 people')
    expect(plural('person', 1, 'people')).toBe('1 person')
  })

  test('says how long a clock has run in hours and minutes, and never less than nothing', () => {
    const minute = 60_000
    expect(
      [-minute, 0, minute - 1, 59 * minute, 60 * minute, 125.9 * minute, 26 * 60 * minute].map(runningTime),
    ).toEqual(['0 min', '0 min', '0 min', '59 min', '1 h 00 min', '2 h 05 min', '26 h 00 min'])
  })

  test('says how large a file is, never smaller than it is', () => {
    expect([0, 1, 339_001, 11_000_001, 999_999_999, 1_310_000_000].map(bytesWords)).toEqual([
      '0 kB',
      '1 kB',
      '340 kB',
      '12 MB',
      '1.0 GB',
      '1.4 GB',
    ])
  })

  test('a list is joined with commas and one and', () => {
    expect(joinWords([])).toBe('')
    expect(joinWords(['a'])).toBe('a')
    expect(joinWords(['a', 'b'])).toBe('a and b')
    expect(joinWords(['a', 'b', 'c'])).toBe('a, b and c')
  })

  test('hours and millimetres carry their unit and a fixed number of decimals', () => {
    expect(hours(12.5)).toBe('12.5 h')
    expect(hours(12)).toBe('12.0 h')
    expect(hours(0.25, 2)).toBe('0.25 h')
    expect(mm(4.13)).toBe('4.1 mm')
    expect(mm(1204.4, 0)).toBe('1,204 mm')
  })

  test('halves round away from zero in decimal, not in binary', () => {
    expect(fixed(4.35, 1)).toBe('4.4')
    expect(fixed(1.005, 2)).toBe('1.01')
    expect(fixed(-4.35, 1)).toBe('-4.4')
    expect(fixed(2.5, 0)).toBe('3')
  })

  test('nothing is shown as minus zero, nor rounded to it', () => {
    expect(fixed(-0.04, 1)).toBe('0.0')
    expect(fixed(-0, 0)).toBe('0')
    expect(rounded(-0.04, 1)).toBe(0)
    expect(rounded(-0.05, 1)).toBe(-0.1)
  })

  test('thousands are set off by commas, fractions are not', () => {
    expect(fixed(999.95, 1)).toBe('1,000.0')
    expect(fixed(1_234_567.1234, 4)).toBe('1,234,567.1234')
    expect(fixed(-12_345, 0)).toBe('-12,345')
  })

  test('a day is said with its weekday, and with its year when that is not the current one', () => {
    expect(dayWords('2026-11-26', 2026)).toBe('Thu 26 Nov')
    expect(dayWords('2026-11-26', 2027)).toBe('Thu 26 Nov 2026')
    expect(dayWords('2024-02-29', 2024)).toBe('Thu 29 Feb')
    expect(dayWords('2027-01-03', 2027)).toBe('Sun 3 Jan')
  })

  test('a range of days says the month and the year once where once is enough', () => {
    expect(dateRangeWords('2026-12-16', '2026-12-23', 2026)).toBe('16 to 23 Dec')
    expect(dateRangeWords('2026-12-16', '2026-12-23', 2027)).toBe('16 to 23 Dec 2026')
    expect(dateRangeWords('2026-11-28', '2026-12-03', 2026)).toBe('28 Nov to 3 Dec')
    expect(dateRangeWords('2026-12-28', '2027-01-03', 2026)).toBe('28 Dec 2026 to 3 Jan 2027')
    expect(dateRangeWords('2026-12-28', '2027-01-03', 2027)).toBe('28 Dec 2026 to 3 Jan 2027')
    expect(dateRangeWords('2025-12-16', '2026-12-16', 2026)).toBe('16 Dec 2025 to 16 Dec 2026')
    expect(dateRangeWords('2026-12-16', '2026-12-16', 2026)).toBe('16 Dec')
  })

  test('a time of day is that of the workshop, summer and winter', () => {
    expect(timeOfDay(Date.UTC(2026, 10, 26, 14, 30, 59), 'Europe/London')).toBe('14:30')
    expect(timeOfDay(Date.UTC(2026, 6, 1, 8, 5), 'Europe/London')).toBe('09:05')
  })

  test('a week is said by its number, and with its year when that is not the current one', () => {
    expect(weekWords({ year: 2026, week: 48 }, 2026)).toBe('week 48')
    expect(weekWords({ year: 2025, week: 1 }, 2026)).toBe('week 1 of 2025')
  })
})
