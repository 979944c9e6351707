import { getISOWeek, getISOWeekYear, startOfISOWeek, format } from 'date-fns'
import { describe, expect, test } from 'vitest'
import {
  dateToIsoWeek,
  formatIsoWeek,
  isoWeekDates,
  nextIsoWeek,
  parseIsoWeek,
  previousIsoWeek,
} from '../../../domain/time/iso-week.ts'
import { addDays, weekdayNumber } from '../../../domain/time/local-date.ts'

describe('ISO weeks', () => {
  // Values as printed by date-fns.
  test.each([
    ['2020-12-31', '2020-W53-4'],
    ['2021-01-03', '2020-W53-7'],
    ['2024-12-30', '2025-W01-1'],
    ['2026-12-31', '2026-W53-4'],
    ['2027-01-01', '2026-W53-5'],
    ['2027-01-04', '2027-W01-1'],
  ])('%s is %s', (date, expected) => {
    expect(`${formatIsoWeek(dateToIsoWeek(date))}-${weekdayNumber(date)}`).toBe(expected)
    expect(isoWeekDates(dateToIsoWeek(date))).toContain(date)
  })

  test('every day of forty years has the week and the Monday that date-fns says', () => {
    const wrong: string[] = []
    for (let date = '2000-01-01'; date < '2040-01-01'; date = addDays(date, 1)) {
      const local = new Date(`${date}T12:00`)
      const week = dateToIsoWeek(date)
      const sameWeek = week.year === getISOWeekYear(local) && week.week === getISOWeek(local)
      const monday = format(startOfISOWeek(local), 'yyyy-MM-dd')
      if (!sameWeek || isoWeekDates(week)[0] !== monday) wrong.push(date)
    }
    expect(wrong).toEqual([])
  })

  test('a week runs from Monday to Sunday', () => {
    expect(isoWeekDates({ year: 2026, week: 53 })).toEqual([
      '2026-12-28',
      '2026-12-29',
      '2026-12-30',
      '2026-12-31',
      '2027-01-01',
      '2027-01-02',
      '2027-01-03',
    ])
  })

  test('the next and the previous week cross the year', () => {
    expect(nextIsoWeek({ year: 2026, week: 53 })).toEqual({ year: 2027, week: 1 })
    expect(previousIsoWeek({ year: 2027, week: 1 })).toEqual({ year: 2026, week: 53 })
    expect(nextIsoWeek({ year: 2025, week: 52 })).toEqual({ year: 2026, week: 1 })
  })

  test('a week is read back from its text', () => {
    expect(parseIsoWeek('2026-W48')).toEqual({ ok: true, value: { year: 2026, week: 48 } })
    expect(formatIsoWeek({ year: 2026, week: 8 })).toBe('2026-W08')
  })

  test('week 53 is read only for years that have one', () => {
    expect(parseIsoWeek('2026-W53').ok).toBe(true)
    expect(parseIsoWeek('2025-W53')).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', message: '2025 has weeks 1 to 52, not 53.' },
    })
  })

  test.each(['2026-W00', '2026-W54', '2026-48', '2026-w48', 'W48', '', '2026-W48-1', '../2026-W48'])(
    '%j is refused with an example of a week',
    (text) => {
      expect(parseIsoWeek(text)).toMatchObject({
        ok: false,
        refusal: { code: 'bad-input', next: 'Give a week like 2026-W48.' },
      })
    },
  )
})
