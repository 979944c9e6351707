import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, test } from 'vitest'
import {
  cameraTimeToInstant,
  dayEnd,
  dayStart,
  hoursBetween,
  instantsShowing,
  instantToIso,
  instantToLocal,
  isTimeZone,
  localDateOf,
  localToInstant,
} from '../../../domain/time/zone.ts'

const london = 'Europe/London'

describe('the workshop zone', () => {
  test('zones are names of the IANA database, not offsets', () => {
    expect(
      ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'UTC'].filter(isTimeZone),
    ).toHaveLength(4)
    expect(['+01:00', '', 'Europe/Nowhere', 'London', '2026-11-26'].filter(isTimeZone)).toEqual([])
  })

  // London 2026: the clocks change on 29 March and 25 October at 01:00Z (IANA time zone database).
  test('the clocks of London change at 01:00Z on 29 March and 25 October 2026', () => {
    const spring = Date.UTC(2026, 2, 29, 1)
    expect(instantToIso(spring - 1000, london)).toBe('2026-03-29T00:59:59+00:00')
    expect(instantToIso(spring, london)).toBe('2026-03-29T02:00:00+01:00')
    const autumn = Date.UTC(2026, 9, 25, 1)
    expect(instantToIso(autumn - 1000, london)).toBe('2026-10-25T01:59:59+01:00')
    expect(instantToIso(autumn, london)).toBe('2026-10-25T01:00:00+00:00')
  })

  test('any moment of fifty years, and those beside a change of the clocks, shows as Temporal shows it', () => {
    const zones = [
      'Europe/London',
      'America/St_Johns',
      'Australia/Lord_Howe',
      'Africa/Casablanca',
      'Asia/Tokyo',
      'UTC',
    ]
    const moments = fc.integer({ min: Date.UTC(1990, 0, 1), max: Date.UTC(2040, 0, 1) })
    fc.assert(
      fc.property(fc.constantFrom(...zones), moments, (zone, moment) => {
        const shown = (at: number) => Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone)
        const change = shown(moment).getTimeZoneTransition('next')?.epochMilliseconds ?? moment
        for (const at of [moment, change - 1, change, change + 1])
          expect(instantToLocal(at, zone)).toEqual({
            date: shown(at).toPlainDate().toString(),
            time: shown(at).toPlainTime().toString({ smallestUnit: 'minute' }),
          })
      }),
    )
  })

  test('the wall clock of London shows half past one once, twice and never', () => {
    expect(instantsShowing('2026-11-25', '01:30', london)).toEqual([Date.UTC(2026, 10, 25, 1, 30)])
    expect(instantsShowing('2026-10-25', '01:30', london)).toEqual([
      Date.UTC(2026, 9, 25, 0, 30),
      Date.UTC(2026, 9, 25, 1, 30),
    ])
    expect(instantsShowing('2026-03-29', '01:30:00', london)).toEqual([])
  })

  test('a shift clocked from 22:00 to 06:00 over the London changes of 2026 is 7 h and 9 h', () => {
    const shift = (from: string, to: string): number =>
      hoursBetween(localToInstant(from, '22:00', london), localToInstant(to, '06:00', london))
    expect(shift('2026-03-28', '2026-03-29')).toBe(7)
    expect(shift('2026-10-24', '2026-10-25')).toBe(9)
    expect(shift('2026-11-25', '2026-11-26')).toBe(8)
  })

  test('a day is 23 h, 25 h or 24 h long', () => {
    const length = (date: string): number => hoursBetween(dayStart(date, london), dayEnd(date, london))
    expect(length('2026-03-29')).toBe(23)
    expect(length('2026-10-25')).toBe(25)
    expect(length('2026-11-26')).toBe(24)
  })

  test('a day starts when it does where midnight is skipped', () => {
    // Santiago 2026: from 6 September 00:00 to 01:00 (IANA time zone database).
    expect(instantToIso(dayStart('2026-09-06', 'America/Santiago'), 'America/Santiago')).toBe(
      '2026-09-06T01:00:00-03:00',
    )
  })

  test('a wall time that is skipped is the moment the clocks change', () => {
    for (const time of ['01:00', '01:30', '01:59:59', '02:00']) {
      expect(localToInstant('2026-03-29', time, london)).toBe(Date.UTC(2026, 2, 29, 1))
    }
  })

  test('a wall time that comes twice is the first one', () => {
    expect(localToInstant('2026-10-25', '01:30', london)).toBe(Date.UTC(2026, 9, 25, 0, 30))
  })

  test('24:00 is the end of the day', () => {
    expect(localToInstant('2026-03-28', '24:00', london)).toBe(dayStart('2026-03-29', london))
  })

  test('an instant has the local date and time of the zone', () => {
    expect(instantToLocal(Date.UTC(2026, 6, 1, 23, 30, 59), london)).toEqual({
      date: '2026-07-02',
      time: '00:30',
    })
    expect(localDateOf(Date.UTC(2026, 10, 26, 4), 'America/New_York')).toBe('2026-11-25')
  })

  test('milliseconds are kept when an instant is written', () => {
    expect(instantToIso(Date.UTC(2026, 10, 26, 14, 30, 0, 5), london)).toBe('2026-11-26T14:30:00.005+00:00')
  })

  test('any instant comes back from its text, and any wall time from its first instant', () => {
    const zone = fc.constantFrom(
      london,
      'America/New_York',
      'Australia/Lord_Howe',
      'Asia/Kolkata',
      'Pacific/Apia',
    )
    const instant = fc.integer({ min: Date.UTC(2005, 0), max: Date.UTC(2045, 0) })
    fc.assert(
      fc.property(instant, zone, (ms, name) => {
        expect(Date.parse(instantToIso(ms, name))).toBe(ms)
        const local = instantToLocal(ms, name)
        const first = localToInstant(local.date, local.time, name)
        expect(instantToLocal(first, name)).toEqual(local)
        expect(first).toBeLessThanOrEqual(ms)
        expect(ms).toBeGreaterThanOrEqual(dayStart(local.date, name))
        expect(ms).toBeLessThan(dayEnd(local.date, name))
      }),
    )
  })
})

// EXIF 2.32: DateTimeOriginal (0x9003) is 'YYYY:MM:DD HH:MM:SS' without a zone, OffsetTimeOriginal (0x9011) '+HH:MM'.
describe('camera times', () => {
  test('a camera time without an offset is read in the workshop zone', () => {
    expect(cameraTimeToInstant('2026:11:26 14:30:05', london, null)).toBe(Date.UTC(2026, 10, 26, 14, 30, 5))
    expect(cameraTimeToInstant('2026:07:01 14:30:05', london, null)).toBe(Date.UTC(2026, 6, 1, 13, 30, 5))
  })

  test('a camera time with an offset is read with it', () => {
    expect(cameraTimeToInstant('2026:07:01 14:30:05', london, '+02:00')).toBe(Date.UTC(2026, 6, 1, 12, 30, 5))
    expect(cameraTimeToInstant('2026:07:01 14:30:05', london, '-09:30')).toBe(Date.UTC(2026, 6, 2, 0, 0, 5))
    expect(cameraTimeToInstant('2026:07:01 14:30:05', london, 'Z')).toBe(Date.UTC(2026, 6, 1, 14, 30, 5))
  })

  test.each(['', '   :  ', 'summer', '+1:00', '+25:00', '+02:75'])(
    'offset %j is no offset: the zone is used',
    (offset) => {
      expect(cameraTimeToInstant('2026:07:01 14:30:05', london, offset)).toBe(Date.UTC(2026, 6, 1, 13, 30, 5))
    },
  )

  test('the closing NUL and blanks of an EXIF text do no harm', () => {
    expect(cameraTimeToInstant('2026:11:26 14:30:05\0', london, '+00:00\0')).toBe(
      Date.UTC(2026, 10, 26, 14, 30, 5),
    )
  })

  test.each([
    'Sunday, 11am',
    '',
    '    :  :     :  :  ',
    '0000:00:00 00:00:00',
    '2026:02:30 10:00:00',
    '2026:11:26 24:00:00',
    '2026:11:26 10:60:00',
    '2026:11:26',
    '2026-11-26T10:00:00Z',
    '2026:11:26 10:00:00 and more',
  ])('%j is no time', (text) => {
    expect(cameraTimeToInstant(text, london, null)).toBeNull()
  })
})
