import { describe, expect, test } from 'vitest'
import { createWorkDays } from '../../../db/demo/work-days.ts'

const ZONE = 'Europe/London'

describe('working days of the demo', () => {
  test('are counted from the day itself when it is worked', () => {
    const days = createWorkDays('2026-11-25', ZONE)
    expect([0, 1, 2, 3].map(days.date)).toEqual(['2026-11-25', '2026-11-26', '2026-11-27', '2026-11-30'])
    expect([-1, -2, -3].map(days.date)).toEqual(['2026-11-24', '2026-11-23', '2026-11-20'])
  })

  test('are counted from the last one before a weekend or a holiday', () => {
    expect(createWorkDays('2026-11-29', ZONE).date(0)).toBe('2026-11-27')
    const newYear = createWorkDays('2027-01-01', ZONE)
    expect(newYear.date(0)).toBe('2026-12-31')
    expect(newYear.date(1)).toBe('2027-01-04')
    expect(createWorkDays('2026-12-28', ZONE).date(-1)).toBe('2026-12-24')
  })

  test('leave out the summer closing of ISO weeks 32 and 33, but not when it is close', () => {
    const closed = (today: string) =>
      createWorkDays(today, ZONE).holidays.filter(({ name }) => name === 'Summer closing')
    // ISO week 32 of 2026 begins on Monday 3 August (ISO 8601: week 1 holds 4 January, a Sunday).
    expect(closed('2026-11-25').map(({ date }) => date)).toContain('2026-08-03')
    expect(closed('2026-11-25').map(({ date }) => date)).toContain('2026-08-14')
    expect(closed('2026-08-10').some(({ date }) => date.startsWith('2026-'))).toBe(false)
  })

  test('have local times on either side of the clock change', () => {
    const days = createWorkDays('2026-10-26', ZONE)
    expect(new Date(days.at(0, '08:00')).toISOString()).toBe('2026-10-26T08:00:00.000Z')
    expect(new Date(days.at(-1, '08:00')).toISOString()).toBe('2026-10-23T07:00:00.000Z')
  })
})
