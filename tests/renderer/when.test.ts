import { describe, expect, test } from 'vitest'
import { createWhen } from '../../renderer/parts/frame/when.tsx'

/** Berlin goes from +02:00 to +01:00 on Sun 25 Oct 2026 at 03:00 (IANA time zone database). */
const when = createWhen('Europe/Berlin', '2026-11-25')
const at = (iso: string) => Date.parse(iso)

describe('a moment as a screen says it', () => {
  test('is read in the workshop’s zone, whatever the device’s own', () => {
    expect(when.dayAndTime(at('2026-11-25T22:30:00Z'))).toBe('Wed 25 Nov, 23:30')
    expect(when.dayAndTime(at('2026-11-25T23:30:00Z'))).toBe('Thu 26 Nov, 00:30')
  })

  test('is only a time when it is today', () => {
    expect(when.short(at('2026-11-25T09:40:00Z'))).toBe('10:40')
    expect(when.short(at('2026-11-24T09:40:00Z'))).toBe('Tue 24 Nov, 10:40')
  })

  test('names the year when it is not this one', () => {
    expect(when.day('2026-12-18')).toBe('Fri 18 Dec')
    expect(when.day('2027-01-15')).toBe('Fri 15 Jan 2027')
  })

  test('keeps the offset that held then', () => {
    expect(when.iso(at('2026-10-25T00:30:00Z'))).toBe('2026-10-25T02:30:00+02:00')
    expect(when.iso(at('2026-10-25T01:30:00Z'))).toBe('2026-10-25T02:30:00+01:00')
  })

  test('belongs to an ISO week', () => {
    expect(when.thisWeek).toBe('2026-W48')
    expect(when.week(at('2026-11-23T08:00:00Z'))).toBe('week 48')
    expect(when.week(at('2025-11-24T08:00:00Z'))).toBe('week 48 of 2025')
  })
})
