import { describe, expect, test } from 'vitest'
import { createHostClock } from '../../electron/host-clock.ts'
import { demoZone, keepDemoAtWork } from '../../electron/host-demo.ts'
import { createWorkshop } from '../support/workshop.ts'

const shownAt = (real: string, lastFact?: string): string => {
  const workshop = createWorkshop(lastFact === undefined ? { setUp: false } : { now: Date.parse(lastFact) })
  const clock = createHostClock({ today: undefined, clock: () => Date.parse(real) }, demoZone)
  keepDemoAtWork(workshop.db, clock)
  workshop.db.close()
  return new Date(clock.now()).toISOString()
}

describe('the time of the demo', () => {
  test('is the real one on a working day', () => {
    expect(shownAt('2026-11-27T19:20:00Z')).toBe('2026-11-27T19:20:00.000Z')
  })

  test('is that of the last working day on a day off, so that no clock runs for days', () => {
    // 2026-11-27 is a Friday; 26 December is a Saturday and Christmas Day before it is kept.
    expect(shownAt('2026-11-29T19:20:00Z')).toBe('2026-11-27T10:40:00.000Z')
    expect(shownAt('2026-12-26T09:00:00Z')).toBe('2026-12-24T10:40:00.000Z')
  })

  test('goes on from its last fact where that is later in that day', () => {
    expect(shownAt('2026-11-29T19:20:00Z', '2026-11-27T15:05:00Z')).toBe('2026-11-27T15:05:00.000Z')
  })
})
