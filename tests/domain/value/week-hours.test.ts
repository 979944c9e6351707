import { expect, test } from 'vitest'
import { dateIn } from '../../../domain/value/local-dates.ts'
import { mondayOf, sumByWeek } from '../../../domain/value/week-hours.ts'

test('a week begins on its Monday, over the ends of years too', () => {
  // ISO weeks of date-fns: 2020-W53 holds 31 Dec 2020 and 3 Jan 2021; 2025-W01 begins on 30 Dec 2024.
  expect(['2020-12-31', '2021-01-03', '2024-12-30', '2025-01-05', '2026-11-25'].map(mondayOf)).toEqual([
    '2020-12-28',
    '2020-12-28',
    '2024-12-30',
    '2024-12-30',
    '2026-11-23',
  ])
  expect(sumByWeek([{ date: '2021-01-03', hours: 2 }]).map(({ week }) => week)).toEqual(['2020-W53'])
})

test('a local date changes at the midnight of its zone, on quarters of an hour too', () => {
  const at = (text: string) => Date.parse(text)
  expect(dateIn('Europe/London', at('2026-03-28T23:59:59Z'))).toBe('2026-03-28')
  // London is an hour ahead of UTC from Sun 29 Mar 2026, 01:00Z, to Sun 25 Oct.
  expect(dateIn('Europe/London', at('2026-03-29T22:59:59Z'))).toBe('2026-03-29')
  expect(dateIn('Europe/London', at('2026-03-29T23:00:00Z'))).toBe('2026-03-30')
  // Kathmandu is 5 h 45 min ahead.
  expect(dateIn('Asia/Kathmandu', at('2026-11-25T18:14:59Z'))).toBe('2026-11-25')
  expect(dateIn('Asia/Kathmandu', at('2026-11-25T18:15:00Z'))).toBe('2026-11-26')
})
