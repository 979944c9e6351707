import { expect, test } from 'vitest'
import { createHostClock } from '../../electron/host-clock.ts'

const zone = 'Europe/London'

test('the host goes by this computer’s clock', () => {
  expect(createHostClock({ today: undefined, clock: () => 1234 }, zone).now()).toBe(1234)
})

test('a demo shown on another day starts at 10:40 of that day in its zone and runs on', () => {
  const clock = { ms: Date.parse('2030-01-01T23:59:00Z') }
  const { now } = createHostClock({ today: '2026-07-01', clock: () => clock.ms }, zone)
  // London is an hour ahead of UTC in July.
  expect(new Date(now()).toISOString()).toBe('2026-07-01T09:40:00.000Z')
  clock.ms += 90_000
  expect(new Date(now()).toISOString()).toBe('2026-07-01T09:41:30.000Z')
})
