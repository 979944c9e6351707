import { describe, expect, it } from 'vitest'
import { latestDue } from '../../../domain/report/weekly-due.ts'
import { formatIsoWeek } from '../../../domain/time/iso-week.ts'
import { instantToIso } from '../../../domain/time/zone.ts'

const zone = 'Europe/London'
const LONG_AGO = Date.parse('2020-01-01T00:00:00Z')
const fridays = { weekday: 5, time: '16:00' }

const due = (weekly: typeof fridays, now: string, since = LONG_AGO) => {
  const found = latestDue(weekly, since, Date.parse(now), zone)
  return found && `${formatIsoWeek(found.week)} at ${instantToIso(found.at, zone)}`
}

describe('the set hour of a week', () => {
  it('has come at its minute, not before', () => {
    expect(due(fridays, '2026-11-27T15:59:59Z')).toBe('2026-W47 at 2026-11-20T16:00:00+00:00')
    expect(due(fridays, '2026-11-27T16:00:00Z')).toBe('2026-W48 at 2026-11-27T16:00:00+00:00')
    expect(due(fridays, '2026-12-04T15:59:59Z')).toBe('2026-W48 at 2026-11-27T16:00:00+00:00')
  })

  it('is caught up with once after weeks without the computer: the latest alone', () => {
    expect(due(fridays, '2026-12-14T08:00:00Z')).toBe('2026-W50 at 2026-12-11T16:00:00+00:00')
  })

  it('is not made up for when it was set later', () => {
    const since = Date.parse('2026-11-27T16:30:00Z')
    expect(due(fridays, '2026-11-30T08:00:00Z', since)).toBeNull()
    expect(due(fridays, '2026-12-04T16:00:00Z', since)).toBe('2026-W49 at 2026-12-04T16:00:00+00:00')
  })

  it('counts where it was set in that very moment', () => {
    const moment = Date.parse('2026-11-27T16:00:00Z')
    expect(due(fridays, '2026-11-27T16:00:00Z', moment)).toBe('2026-W48 at 2026-11-27T16:00:00+00:00')
    expect(due(fridays, '2026-11-27T16:00:01Z', moment + 1)).toBeNull()
  })

  it('tells the week before on Monday to Wednesday, its own from Thursday on, also over the year', () => {
    expect(due({ weekday: 1, time: '07:00' }, '2027-01-04T07:00:00Z')).toBe(
      '2026-W53 at 2027-01-04T07:00:00+00:00',
    )
    expect(due({ weekday: 3, time: '07:00' }, '2026-11-25T07:00:00Z')).toBe(
      '2026-W47 at 2026-11-25T07:00:00+00:00',
    )
    expect(due({ weekday: 4, time: '07:00' }, '2026-11-26T07:00:00Z')).toBe(
      '2026-W48 at 2026-11-26T07:00:00+00:00',
    )
    expect(due({ weekday: 7, time: '20:00' }, '2027-01-03T20:00:00Z')).toBe(
      '2026-W53 at 2027-01-03T20:00:00+00:00',
    )
  })
})

// London 2026: the clocks change on 29 March and 25 October at 01:00Z (GOV.UK, 'When do the clocks change?').
describe('when the clocks change', () => {
  it('keeps to the wall clock on both sides of it', () => {
    expect(due(fridays, '2026-03-27T16:00:00Z')).toBe('2026-W13 at 2026-03-27T16:00:00+00:00')
    expect(due(fridays, '2026-04-03T14:59:59Z')).toBe('2026-W13 at 2026-03-27T16:00:00+00:00')
    expect(due(fridays, '2026-04-03T15:00:00Z')).toBe('2026-W14 at 2026-04-03T16:00:00+01:00')
    expect(due(fridays, '2026-10-30T15:59:59Z')).toBe('2026-W43 at 2026-10-23T16:00:00+01:00')
    expect(due(fridays, '2026-10-30T16:00:00Z')).toBe('2026-W44 at 2026-10-30T16:00:00+00:00')
  })

  it('comes as the clocks jump over an hour that is skipped', () => {
    const nights = { weekday: 7, time: '01:30' }
    expect(due(nights, '2026-03-29T00:59:59Z')).toBe('2026-W12 at 2026-03-22T01:30:00+00:00')
    expect(due(nights, '2026-03-29T01:00:00Z')).toBe('2026-W13 at 2026-03-29T02:00:00+01:00')
  })

  it('comes at the first of an hour that comes twice, and only once', () => {
    const nights = { weekday: 7, time: '01:30' }
    expect(due(nights, '2026-10-25T00:29:59Z')).toBe('2026-W42 at 2026-10-18T01:30:00+01:00')
    for (const now of ['2026-10-25T00:30:00Z', '2026-10-25T01:30:00Z'])
      expect(due(nights, now)).toBe('2026-W43 at 2026-10-25T01:30:00+01:00')
  })
})
