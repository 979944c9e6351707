import { expect, test } from 'vitest'
import { isTooLong, joinDays, partDays } from '../../../renderer/workshop/holidays.ts'

const day = (date: string, name = 'Summer closing') => ({ date, name })

test('closed days of one name that follow each other are said as one, over a weekend too', () => {
  // Fri 13 and Mon 16 Aug 2027.
  expect(joinDays([day('2027-08-12'), day('2027-08-13'), day('2027-08-16')])).toEqual([
    { from: '2027-08-12', to: '2027-08-16', name: 'Summer closing' },
  ])
})

test('another name, or more than a weekend between, begins another closing', () => {
  const joined = joinDays([day('2027-08-12'), day('2027-08-16'), day('2027-08-17', 'Stocktaking')])
  expect(joined.map(({ from }) => from)).toEqual(['2027-08-12', '2027-08-16', '2027-08-17'])
})

test('closed days are kept day by day, in order, each once', () => {
  const parted = partDays([
    { from: '2026-12-31', to: '2027-01-02', name: 'New Year' },
    { from: '2026-12-30', to: '2026-12-31', name: 'Stocktaking' },
  ])
  expect(parted).toEqual([
    day('2026-12-30', 'Stocktaking'),
    day('2026-12-31', 'Stocktaking'),
    day('2027-01-01', 'New Year'),
    day('2027-01-02', 'New Year'),
  ])
})

test('a closing of a year is taken for a slip', () => {
  expect(isTooLong({ from: '2026-08-01', to: '2027-08-01', name: 'Summer' })).toBe(true)
  expect(isTooLong({ from: '2026-08-01', to: '2026-08-29', name: 'Summer' })).toBe(false)
})
