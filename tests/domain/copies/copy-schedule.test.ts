import { describe, expect, test } from 'vitest'
import { copyDue, type CopySchedule } from '../../../domain/copies/copy-schedule.ts'

const zone = 'Europe/Berlin'
const at = (iso: string) => Date.parse(iso)
const due = (schedule: CopySchedule, now: string, last: string | null, since = '2026-01-01T00:00:00Z') => {
  const moment = copyDue(schedule, {
    since: at(since),
    last: last === null ? null : at(last),
    now: at(now),
    zone,
  })
  return moment === null ? null : new Date(moment).toISOString()
}

describe('a copy a day', () => {
  const daily = { every: 'day', time: '18:00' } as const

  test('is due at its time and once', () => {
    expect(due(daily, '2026-11-27T17:59:59+01:00', '2026-11-26T18:00:05+01:00')).toBeNull()
    expect(due(daily, '2026-11-27T18:00:00+01:00', '2026-11-26T18:00:05+01:00')).toBe(
      '2026-11-27T17:00:00.000Z',
    )
    expect(due(daily, '2026-11-27T18:00:30+01:00', '2026-11-27T18:00:10+01:00')).toBeNull()
  })

  test('is caught up with after days off, one time only', () => {
    expect(due(daily, '2026-11-30T08:00:00+01:00', '2026-11-26T18:00:05+01:00')).toBe(
      '2026-11-29T17:00:00.000Z',
    )
  })

  test('is not made up for from before it was set', () => {
    expect(due(daily, '2026-11-27T19:00:00+01:00', null, '2026-11-27T18:30:00+01:00')).toBeNull()
    expect(due(daily, '2026-11-28T18:00:00+01:00', null, '2026-11-27T18:30:00+01:00')).not.toBeNull()
  })

  test('comes once where the clocks skip its time, and once where they show it twice', () => {
    const atNight = { every: 'day', time: '02:30' } as const
    // 29 March 2026: 02:00 becomes 03:00.
    expect(due(atNight, '2026-03-29T03:00:00+02:00', '2026-03-28T02:31:00+01:00')).toBe(
      '2026-03-29T01:00:00.000Z',
    )
    // 25 October 2026: 03:00 becomes 02:00.
    expect(due(atNight, '2026-10-25T02:30:00+02:00', '2026-10-24T02:31:00+02:00')).toBe(
      '2026-10-25T00:30:00.000Z',
    )
    expect(due(atNight, '2026-10-25T02:30:00+01:00', '2026-10-25T02:31:00+02:00')).toBeNull()
  })
})

describe('a copy every few hours', () => {
  const every = { every: 'hours', hours: 4 } as const

  test('is due at once when it is set, and then so long after the last one', () => {
    expect(due(every, '2026-11-27T10:00:00Z', null, '2026-11-27T09:59:00Z')).toBe('2026-11-27T09:59:00.000Z')
    expect(due(every, '2026-11-27T13:59:59Z', '2026-11-27T10:00:00Z')).toBeNull()
    expect(due(every, '2026-11-27T14:00:00Z', '2026-11-27T10:00:00Z')).toBe('2026-11-27T14:00:00.000Z')
  })
})
