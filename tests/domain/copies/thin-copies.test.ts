import { describe, expect, test } from 'vitest'
import { copiesToDrop } from '../../../domain/copies/thin-copies.ts'

const berlin = 'Europe/Berlin'
const at = (iso: string) => Date.parse(iso)
const copy = (iso: string, isWhole = true) => ({ stamp: iso, made: at(iso), isWhole })
const dropped = (now: string, copies: readonly ReturnType<typeof copy>[], zone = berlin) =>
  copiesToDrop(copies, at(now), zone)

describe('old copies thin out by age', () => {
  test('all of today and yesterday stay, by local dates', () => {
    const copies = [
      '2026-11-27T00:00:00+01:00',
      '2026-11-27T09:00:00+01:00',
      '2026-11-28T10:00:00+01:00',
    ].map((iso) => copy(iso))
    expect(dropped('2026-11-28T23:59:59+01:00', copies)).toEqual([])
    // One second later it is Sunday: Friday keeps its last one.
    expect(dropped('2026-11-29T00:00:00+01:00', copies)).toEqual(['2026-11-27T00:00:00+01:00'])
  })

  test('the last one of each day stays for two weeks, then that of each week', () => {
    const monday = [copy('2026-11-16T08:00:00Z'), copy('2026-11-16T18:00:00Z')]
    const tuesday = [copy('2026-11-17T18:00:00Z')]
    // On the 30th, the 16th is 14 days ago; on 1 December it is 15 and the whole week keeps one.
    expect(dropped('2026-11-30T12:00:00Z', [...monday, ...tuesday])).toEqual(['2026-11-16T08:00:00Z'])
    expect(dropped('2026-12-01T12:00:00Z', [...monday, ...tuesday])).toEqual(['2026-11-16T08:00:00Z'])
    // On the 2nd both days are past two weeks.
    expect(dropped('2026-12-02T12:00:00Z', [...monday, ...tuesday])).toEqual([
      '2026-11-16T08:00:00Z',
      '2026-11-16T18:00:00Z',
    ])
  })

  test('weeks are those of ISO 8601: Sunday and the Monday after it are two', () => {
    const copies = [copy('2026-10-18T12:00:00Z'), copy('2026-10-19T12:00:00Z')]
    expect(dropped('2026-11-30T12:00:00Z', copies)).toEqual([])
  })

  test('beyond three months one a month stays', () => {
    const copies = [copy('2026-08-27T12:00:00Z'), copy('2026-08-31T12:00:00Z'), copy('2026-07-01T12:00:00Z')]
    // 31 August is 91 days before 30 November: its week keeps it, and August keeps the 27th.
    expect(dropped('2026-11-30T12:00:00Z', copies)).toEqual([])
    expect(dropped('2026-12-01T12:00:00Z', copies)).toEqual(['2026-08-27T12:00:00Z'])
  })

  test('the last whole one stays, however old, and is kept rather than one that is not whole', () => {
    const old = copy('2020-01-05T12:00:00Z')
    const later = copy('2020-01-20T12:00:00Z', false)
    const today = copy('2026-11-30T08:00:00Z', false)
    expect(dropped('2026-11-30T12:00:00Z', [old, later, today])).toEqual(['2020-01-20T12:00:00Z'])
  })

  test('a day on which the clocks go back is one day, with 25 hours', () => {
    const copies = [
      '2026-10-25T02:30:00+02:00',
      '2026-10-25T02:30:00+01:00',
      '2026-10-25T23:30:00+01:00',
    ].map((iso) => copy(iso))
    expect(dropped('2026-10-26T23:59:00+01:00', copies)).toEqual([])
    expect(dropped('2026-10-27T00:00:00+01:00', copies)).toEqual([
      '2026-10-25T02:30:00+02:00',
      '2026-10-25T02:30:00+01:00',
    ])
  })

  test('what a clock that ran ahead has dated into the future stays', () => {
    const copies = [copy('2027-11-28T12:00:00Z'), copy('2027-11-28T13:00:00Z')]
    expect(dropped('2026-11-28T12:00:00Z', copies)).toEqual([])
  })

  test('three years of two copies a day come to two days of both, 13 days, 11 weeks and 33 months', () => {
    const now = at('2026-11-30T20:00:00Z')
    const copies = Array.from({ length: 3 * 365 * 2 + 1 }, (_, index) =>
      copy(new Date(now - index * 12 * 3_600_000).toISOString()),
    )
    const gone = new Set(copiesToDrop(copies, now, 'UTC'))
    const kept = copies.map(({ stamp }) => stamp).filter((stamp) => !gone.has(stamp))
    const between = (first: string, last: string) =>
      kept.filter((stamp) => stamp.slice(0, 10) >= first && stamp.slice(0, 10) <= last).length
    expect(between('2026-11-29', '2026-11-30')).toBe(4)
    expect(between('2026-11-16', '2026-11-28')).toBe(13)
    expect(between('2026-08-31', '2026-11-15')).toBe(11)
    expect(between('2023-12-01', '2026-08-30')).toBe(33)
    expect(kept).toHaveLength(61)
  })
})
