import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { closedStretches, planTicks } from '../../../domain/drawing/plan-ticks.ts'
import {
  dayAt,
  daysUntil,
  LEAST_DAYS,
  momentAt,
  MOST_DAYS,
  scaleFor,
  scaleWidth,
  xOf,
  zoomBy,
  zoomStep,
} from '../../../domain/drawing/plan-scale.ts'
import { addDays } from '../../../domain/time/local-date.ts'
import { dayEnd, dayStart, localToInstant } from '../../../domain/time/zone.ts'
import type { PlanDay } from '../../../domain/views/plan-view-shapes.ts'
import { planViewFixture } from '../../support/plan-view-fixture.ts'

const zone = 'Europe/Berlin'
const { days } = planViewFixture({ works: 1 })

/** Ordinary days without working time. */
const bareDays = (from: string, count: number): readonly PlanDay[] =>
  Array.from({ length: count }, (_, index) => {
    const date = addDays(from, index)
    return { date, from: dayStart(date, zone), to: dayEnd(date, zone), spans: [], holiday: null }
  })

describe('the scale', () => {
  test('a moment comes back from its place', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 180 * 86_400_000 }),
        fc.double({ min: 1, max: 183, noNaN: true }),
        (after, shown) => {
          const scale = scaleFor(days, 1_000, shown)
          const at = scale.from + after
          expect(momentAt(scale, xOf(scale, at))).toBeCloseTo(at, -1)
        },
      ),
    )
  })

  test('the width shows as many days as it is asked to', () => {
    expect(xOf(scaleFor(days, 1_050, 7), days[7]?.from ?? 0)).toBeCloseTo(1_050, 6)
    expect(scaleWidth(scaleFor(days, 1_050, 28))).toBeGreaterThan(6 * 1_050)
  })

  test('the day of the change of the clocks is an hour narrower or wider', () => {
    // In the European Union the clocks go forward on the last Sunday of March (Directive 2000/84/EC): 28 March 2027.
    const scale = scaleFor(bareDays('2027-03-27', 3), 2_400, 1)
    const width = (index: number) =>
      xOf(scale, bareDays('2027-03-27', 3)[index]?.to ?? 0) -
      xOf(scale, bareDays('2027-03-27', 3)[index]?.from ?? 0)
    expect(width(0)).toBeCloseTo(2_400, 6)
    expect(width(1)).toBeCloseTo(2_300, 6)
  })

  test('the steps of the zoom go from a day to six months and end there', () => {
    expect(zoomStep(7, 'closer')).toBe(4)
    expect(zoomStep(7, 'wider')).toBe(14)
    expect(zoomStep(10, 'closer')).toBe(7)
    expect(zoomStep(LEAST_DAYS, 'closer')).toBe(LEAST_DAYS)
    expect(zoomStep(MOST_DAYS, 'wider')).toBe(MOST_DAYS)
  })

  test('the wheel never goes past the ends', () => {
    expect(zoomBy(28, 1.25)).toBe(35)
    expect(zoomBy(150, 5)).toBe(MOST_DAYS)
    expect(zoomBy(2, 0.01)).toBe(LEAST_DAYS)
  })

  test('the day that holds a moment is found, its first instant included', () => {
    const [first, second] = days
    expect(dayAt(days, second?.from ?? 0).date).toBe('2026-11-24')
    expect(dayAt(days, (second?.from ?? 0) - 1).date).toBe('2026-11-23')
    expect(dayAt(days, 0)).toBe(first)
    expect(dayAt(days, Infinity)).toBe(days.at(-1))
  })

  test('days past the plan go on without gaps and work as a week before', () => {
    const until = dayStart('2027-06-20', zone)
    const more = daysUntil(days, until, zone)
    expect(more.every((day, index) => index === 0 || day.from === more[index - 1]?.to)).toBe(true)
    expect(more.at(-1)?.to).toBeGreaterThan(until)
    // 19 June 2027 is a Saturday, 18 June a Friday.
    expect(more.find(({ date }) => date === '2027-06-19')?.spans).toEqual([])
    expect(more.find(({ date }) => date === '2027-06-18')?.spans[0]?.from).toBe(
      localToInstant('2027-06-18', '08:00', zone),
    )
  })
})

describe('the divisions of the head', () => {
  const at = (perDay: number) => planTicks(days, scaleFor(days, perDay, 1), zone)

  test('six months show months and weeks by their ISO numbers', () => {
    const { large, small } = at(9)
    expect(large.map(({ words }) => words).filter((words) => words !== '')).toContain('Dec 2026')
    // ISO 8601: 2026 begins on a Thursday and so has 53 weeks; week 1 of 2027 begins on Monday 4 January.
    expect(small.slice(4, 8).map(({ words }) => words)).toEqual(['52', '53', '1', '2'])
    expect(small[6]?.x).toBeCloseTo(xOf(scaleFor(days, 9, 1), dayStart('2027-01-04', zone)), 6)
  })

  test('weeks show each day, with its month where there is room', () => {
    expect(at(37).small[3]?.words).toBe('26')
    expect(at(60).small[3]?.words).toBe('Thu 26')
    expect(at(150).small[3]?.words).toBe('Thu 26 Nov')
    expect(at(37).large[0]?.words).toBe('week 48')
  })

  test('a day shows its hours by the wall clock, an hour that is skipped left out', () => {
    const spring = bareDays('2027-03-28', 1)
    const { small, large } = planTicks(spring, scaleFor(spring, 1_200, 1), zone)
    expect(large[0]?.words).toBe('Sun 28 Mar')
    const hours = small.map(({ words }) => words)
    expect(hours).not.toContain('02:00')
    expect(hours.slice(0, 3)).toEqual(['00:00', '01:00', '03:00'])
    expect(hours).toHaveLength(23)
  })

  test('divisions join without gaps, and words that do not fit are left out', () => {
    for (const perDay of [6, 12, 20, 60, 200, 500, 1_100]) {
      const { large, small } = at(perDay)
      for (const ticks of [large, small]) {
        for (const [index, tick] of ticks.entries()) {
          const next = ticks[index + 1]
          if (next !== undefined) expect(tick.x + tick.width).toBeCloseTo(next.x, 6)
        }
      }
    }
    expect(at(6).large[0]).toMatchObject({ words: '' })
  })

  test('nights are marked where they can be seen, days off at every zoom', () => {
    const wide = closedStretches(days, scaleFor(days, 6, 1))
    const close = closedStretches(days, scaleFor(days, 160, 1))
    expect(wide.every(({ isDay }) => isDay)).toBe(true)
    expect(wide).toHaveLength(days.filter(({ spans }) => spans.length === 0).length)
    expect(close.filter(({ isDay }) => !isDay)).toHaveLength(
      2 * days.filter(({ spans }) => spans.length > 0).length,
    )
  })
})
