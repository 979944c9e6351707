import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { carAttention } from '../../../domain/views/attention-view.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import { carWarnings } from '../../../domain/watch/car-warnings.ts'
import { byWorst } from '../../../domain/watch/warning.ts'
import { randomCars } from '../../support/random-cars.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const context = createViewContext({ now: Date.parse('2026-11-25T10:40:00Z'), workshop, nameOf })

describe('warnings of any car', () => {
  it('are told once each, worst first, with hours and the day since which they stand', () => {
    const seen = new Map<string, number>()
    fc.assert(
      fc.property(randomCars, (car) => {
        const warnings = carWarnings(car, context)
        expect(new Set(warnings.map(({ key }) => key)).size).toBe(warnings.length)
        expect(warnings.toSorted(byWorst)).toEqual(warnings)
        for (const { kind, key, hours, since } of warnings) {
          expect(hours, key).toBeGreaterThan(0)
          expect(Number.isFinite(hours), key).toBe(true)
          expect(since, key).toMatch(/^2026-\d\d-\d\d$/)
          expect(since <= context.today, key).toBe(true)
          seen.set(kind, (seen.get(kind) ?? 0) + 1)
        }
        const words = carAttention(car, context).flatMap(({ lines }) => lines.map((line) => line.words))
        expect(words).toHaveLength(warnings.length)
        expect(words.join(' ')).not.toMatch(/NaN|Infinity|undefined|a repair\b|a task\b/)
      }),
      { numRuns: 150 },
    )
    // A test that sees no warning tells nothing; overruns are rare on these cars, and their clocks run within the day.
    for (const kind of ['not authorised', 'over authorised', 'after the end'])
      expect(seen.get(kind) ?? 0, kind).toBeGreaterThan(0)
  })
})
