import { expect, test } from 'vitest'
import type { Command } from '../../domain/commands/command-shapes.ts'
import type { ClockView } from '../../domain/views/shared-views.ts'
import type { KeptCommand } from '../../renderer/outbox/kept.ts'
import { clockWithWaiting } from '../../renderer/outbox/waiting-clock.ts'
import { command } from '../support/outbox-host.ts'

const wren = 'person-wren' as ClockView['personId']
const on = { kind: 'workshop', what: 'sweeping' } as const

const kept = (kind: Command['kind'], payload: unknown): KeptCommand => ({
  command: command(`${kind}-1`, { kind, payload }),
  stated: '2026-11-25T10:42:00+00:00',
  told: { what: '', where: 'Larkspur 4', on: 'sweeping', by: 'Wren' },
  refusal: null,
  refusedWith: null,
})
const start = (entryId: string, personId: string = wren) =>
  kept('startClock', { entryId, personId, on, hotWork: false, cause: null })
const stop = (entryId: string) => kept('stopClock', { entryId, overtime: false, shares: null })

test('a clock that waits to be sent runs from when it was started, and can be stopped', () => {
  const running = clockWithWaiting(null, wren, [start('entry-1')])
  expect(running).toMatchObject({
    entryId: 'entry-1',
    what: 'sweeping',
    since: Date.UTC(2026, 10, 25, 10, 42),
  })
  expect(clockWithWaiting(null, wren, [start('entry-1'), stop('entry-1')])).toBeNull()
  expect(clockWithWaiting(running, wren, [stop('entry-1'), start('entry-2')])?.entryId).toBe('entry-2')
})

test('another person’s clock that waits on the same device is not taken for one’s own', () => {
  expect(clockWithWaiting(null, wren, [start('entry-1', 'person-joss')])).toBeNull()
  const known = clockWithWaiting(null, wren, [start('entry-1')])
  expect(clockWithWaiting(known, wren, [stop('entry-9')])).toBe(known)
})
