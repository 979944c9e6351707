import process from 'node:process'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { leaveInOrder } from '../../../electron/desktop/leaving.ts'
import { fakeDesktop } from '../../support/fake-desktop.ts'

const signals = ['SIGINT', 'SIGTERM'] as const
const before = signals.map((name) => process.listeners(name))
beforeEach(() => void vi.useFakeTimers())
afterEach(() => {
  vi.useRealTimers()
  vi.restoreAllMocks()
  for (const [at, name] of signals.entries())
    for (const listener of process.listeners(name))
      if (before[at]?.includes(listener) === false) process.off(name, listener)
})

const COPY = 'A copy of the workshop is being made.'
const WAIT = 0
const NOW = 1
const GO_ON = 2

/** A program that is to be left, while what is in `doing` goes on. */
function running({ answer = WAIT, doing = [] as readonly string[] } = {}) {
  const fake = fakeDesktop({ answer: () => answer })
  const work = { doing }
  const log: string[] = []
  const close = vi.fn(async () => {})
  const ended = vi.fn()
  leaveInOrder(fake.desktop, fake.opened, {
    underWay: () => work.doing,
    close,
    ended,
    log: (line) => log.push(line),
  })
  return { ...fake, work, log, close, ended }
}
const settled = () => vi.advanceTimersByTimeAsync(1)

test('with nothing under way the program is left without a question', () => {
  const { emit, boxes } = running()
  expect(emit.window('close')).toBe('let through')
  expect(emit.app('before-quit')).toBe('let through')
  expect(boxes).toEqual([])
})

test('while a copy is made, closing the window and quitting ask first, once', async () => {
  const { emit, boxes, steps } = running({ doing: [COPY], answer: GO_ON })
  expect(emit.window('close')).toBe('held back')
  expect(emit.app('before-quit')).toBe('held back')
  await settled()
  expect(boxes).toMatchObject([
    { message: COPY, buttons: ['Quit when it is done', 'Quit now', 'Go on working'], cancelId: GO_ON },
  ])
  expect(steps).toEqual([])
})

test('who waits leaves when the copy is done', async () => {
  const { emit, work, steps } = running({ doing: [COPY] })
  emit.app('before-quit')
  await vi.advanceTimersByTimeAsync(60_000)
  expect(steps).toEqual([])
  work.doing = []
  await vi.advanceTimersByTimeAsync(1_000)
  expect(steps).toEqual(['quit'])
  expect(emit.window('close')).toBe('let through')
})

test('who goes on working is not taken out of it later', async () => {
  const { emit, work, steps } = running({ doing: [COPY], answer: GO_ON })
  emit.app('before-quit')
  await settled()
  work.doing = []
  await vi.advanceTimersByTimeAsync(60_000)
  expect(steps).toEqual([])
})

test('who quits now is asked nothing more', async () => {
  const { emit, boxes, steps } = running({ doing: [COPY], answer: NOW })
  emit.app('before-quit')
  await settled()
  expect(steps).toEqual(['quit'])
  expect(emit.app('before-quit')).toBe('let through')
  expect(boxes).toHaveLength(1)
})

test.each(['the session ends', 'the computer is switched off', 'SIGTERM', 'SIGINT'])(
  '%s: nobody is asked, and the host is closed in time',
  async (how) => {
    const { emit, boxes, steps, close, ended, log } = running({ doing: [COPY] })
    close.mockReturnValue(new Promise(() => {}))
    if (how === 'the session ends') emit.window('session-end')
    else if (how === 'the computer is switched off') expect(emit.power('shutdown')).toBe('held back')
    else process.emit(how as 'SIGTERM')
    expect(steps).toEqual(['quit'])
    expect(emit.app('before-quit')).toBe('let through')
    expect(boxes).toEqual([])
    expect(emit.app('will-quit')).toBe('held back')
    await vi.advanceTimersByTimeAsync(4_500)
    expect(close).toHaveBeenCalledTimes(1)
    expect(steps).toEqual(['quit', 'exit 1'])
    expect(ended).not.toHaveBeenCalled()
    expect(log).toEqual(['The host did not close cleanly: Error: It took more than 4 s.'])
  },
)

test('a run that ends well says so after the host has closed', async () => {
  const { emit, steps, ended, close } = running()
  close.mockImplementation(async () => {
    expect(ended).not.toHaveBeenCalled()
  })
  emit.app('will-quit')
  await settled()
  expect(ended).toHaveBeenCalledTimes(1)
  expect(steps).toEqual(['exit 0'])
})

test('a host that does not close cleanly ends with an error', async () => {
  const { emit, steps, close, ended, log } = running()
  close.mockRejectedValue(new Error('disk full'))
  emit.app('will-quit')
  await settled()
  expect(steps).toEqual(['exit 1'])
  expect(ended).not.toHaveBeenCalled()
  expect(log).toEqual(['The host did not close cleanly: Error: disk full'])
})

test('a person’s quitting gives the host half a minute', async () => {
  const { emit, steps, close } = running()
  close.mockReturnValue(new Promise(() => {}))
  emit.app('will-quit')
  await vi.advanceTimersByTimeAsync(29_000)
  expect(steps).toEqual([])
  await vi.advanceTimersByTimeAsync(2_000)
  expect(steps).toEqual(['exit 1'])
})
