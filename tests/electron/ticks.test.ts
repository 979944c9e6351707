import { expect, onTestFinished, test, vi } from 'vitest'
import { createTicks } from '../../electron/ticks.ts'

test('what fails by itself is logged, and what comes after it is done, again and again', async () => {
  const lines: string[] = []
  let times = 0
  const ticks = createTicks({ log: (line) => lines.push(line), everyMs: 1 })
  ticks.add(() => Promise.reject(new Error('the disk')))
  ticks.add(async () => void (times += 1))
  ticks.start()
  await vi.waitFor(() => expect(times).toBeGreaterThanOrEqual(3))
  await ticks.stop()
  expect(lines[0]).toMatch(/^by itself: Error: the disk/)
})

test('a tick waits for the one before, and stopping waits for what is under way and begins nothing more', async () => {
  vi.useFakeTimers()
  onTestFinished(() => void vi.useRealTimers())
  const { promise, resolve } = Promise.withResolvers<void>()
  let begun = 0
  const ticks = createTicks({ log: () => undefined, everyMs: 1 })
  ticks.add(() => {
    begun += 1
    return promise
  })
  ticks.start()
  await vi.advanceTimersByTimeAsync(20)
  expect(begun).toBe(1)
  const stopped = ticks.stop().then(() => 'stopped')
  expect(await Promise.race([stopped, Promise.resolve('waits')])).toBe('waits')
  resolve()
  expect(await stopped).toBe('stopped')
  await vi.advanceTimersByTimeAsync(20)
  expect(begun).toBe(1)
})
