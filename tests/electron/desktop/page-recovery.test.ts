import { afterEach, expect, test, vi } from 'vitest'
import { recoverPage } from '../../../electron/desktop/page-recovery.ts'
import { fakeDesktop, type FakeDesktopOptions } from '../../support/fake-desktop.ts'

afterEach(() => vi.restoreAllMocks())

const crash = { reason: 'crashed', exitCode: 11 }

function shown(options: FakeDesktopOptions = {}) {
  const fake = fakeDesktop(options)
  const time = { now: 0 }
  const log: string[] = []
  recoverPage(fake.desktop, fake.opened, { log: (line) => log.push(line), clock: () => time.now })
  const settle = () => new Promise((resolve) => setImmediate(resolve))
  return { ...fake, time, log, settle }
}

test('a page that crashes is opened again, with words that say what is kept', async () => {
  const { emit, steps, boxes, log, settle } = shown()
  emit.contents('render-process-gone', crash)
  await settle()
  expect(steps).toEqual(['reload'])
  expect(boxes).toMatchObject([{ message: 'The screen stopped working and was opened again.' }])
  expect(boxes[0]?.detail).toMatch(/What was saved or sent is kept, also what still waits[^]*crashed/)
  expect(log).toEqual(['page: its process ended (crashed, 11)'])
})

test('a page that ends in order is let go', async () => {
  const { emit, steps, boxes, settle } = shown()
  emit.contents('render-process-gone', { reason: 'clean-exit', exitCode: 0 })
  await settle()
  expect([...steps, ...boxes]).toEqual([])
})

test('the third crash within ten minutes waits for a person, who can try again or quit', async () => {
  const answers = [0, 0, 0, 0, 0, 1]
  const { emit, steps, boxes, settle } = shown({ answer: () => answers.shift() ?? 0 })
  for (let at = 0; at < 3; at++) {
    emit.contents('render-process-gone', crash)
    await settle()
  }
  expect(boxes.at(-1)?.message).toBe('The screen stopped working 3 times within ten minutes.')
  expect(steps).toEqual(['reload', 'reload', 'reload'])
  for (let at = 0; at < 3; at++) {
    emit.contents('render-process-gone', crash)
    await settle()
  }
  expect(steps.slice(3)).toEqual(['reload', 'reload', 'quit'])
})

test('crashes that lie far apart are no loop', async () => {
  const { emit, steps, boxes, time, settle } = shown()
  for (let at = 0; at < 5; at++) {
    time.now = at * 6 * 60_000
    emit.contents('render-process-gone', crash)
    await settle()
  }
  expect(steps).toEqual(Array(5).fill('reload'))
  expect(new Set(boxes.map(({ message }) => message)).size).toBe(1)
})

test('a page that hangs is asked about once, and opened again when the person says so', async () => {
  const { emit, steps, boxes, settle } = shown({ answer: () => 1 })
  emit.window('unresponsive')
  emit.window('unresponsive')
  await settle()
  expect(boxes).toMatchObject([
    { message: 'The screen does not answer.', buttons: ['Wait', 'Open the screen again'] },
  ])
  expect(steps).toEqual(['forcefullyCrashRenderer'])
  emit.contents('render-process-gone', { reason: 'killed', exitCode: 9 })
  await settle()
  expect(steps).toEqual(['forcefullyCrashRenderer', 'reload'])
  expect(boxes).toHaveLength(1)
})

test('a page that answers again takes its box away, and nothing is ended', async () => {
  const { emit, steps, settle } = shown({
    // As Electron does: a box whose signal is aborted is answered as if it was cancelled.
    answer: ({ signal, cancelId = 0 }) =>
      new Promise((resolve) => signal?.addEventListener('abort', () => resolve(cancelId))),
  })
  emit.window('unresponsive')
  emit.window('responsive')
  await settle()
  expect(steps).toEqual([])
})

test('who waits is asked again when it hangs again', async () => {
  const { emit, boxes, settle } = shown()
  emit.window('unresponsive')
  await settle()
  emit.window('unresponsive')
  await settle()
  expect(boxes).toHaveLength(2)
})

test('other processes that end are logged', () => {
  const { emit, log, steps } = shown()
  emit.app('child-process-gone', { type: 'GPU', reason: 'crashed', exitCode: 5 })
  emit.app('child-process-gone', { type: 'Utility', name: 'Network Service', reason: 'oom', exitCode: 1 })
  emit.app('child-process-gone', { type: 'Utility', reason: 'clean-exit', exitCode: 0 })
  expect(log).toEqual(['GPU: its process ended (crashed, 5)', 'Network Service: its process ended (oom, 1)'])
  expect(steps).toEqual([])
})
