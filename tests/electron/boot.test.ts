import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { afterEach, expect, test, vi } from 'vitest'
import { logsFolder, runningMarkPath } from '../../db/data-paths.ts'
import { boot, type StartHost } from '../../electron/boot.ts'
import {
  dataFolder,
  fakeDesktop,
  type FakeDesktopOptions,
  fakeHost,
  itemsOf,
} from '../support/fake-desktop.ts'

const events = ['SIGINT', 'SIGTERM', 'uncaughtException', 'unhandledRejection'] as const
const before = new Map(events.map((name) => [name, process.listeners(name as 'SIGINT')]))
afterEach(() => {
  vi.restoreAllMocks()
  for (const name of events)
    for (const listener of process.listeners(name as 'SIGINT'))
      if (before.get(name)?.includes(listener) === false) process.off(name, listener)
})

async function booted({
  argv = [],
  dataDir = dataFolder(),
  startHost,
  ...options
}: FakeDesktopOptions & {
  readonly argv?: readonly string[]
  readonly dataDir?: string
  readonly startHost?: StartHost
} = {}) {
  const fake = fakeDesktop(options)
  const host = fakeHost(fake.steps)
  await boot(fake.desktop, startHost ?? host.startHost, ['--data', dataDir, ...argv])
  return { ...fake, ...host, dataDir }
}
const logOf = (dataDir: string) => readFileSync(join(logsFolder(dataDir), 'panelwright.log'), 'utf8')

test('the steps come in their order, and the host is up before the window', async () => {
  const { steps, dataDir } = await booted({ argv: ['--port', '0'] })
  expect(steps).toEqual([
    'setName Panelwright',
    `setPath userData ${dataDir}/private/window`,
    'requestSingleInstanceLock',
    'enableSandbox',
    'whenReady',
    'startHost 0',
    'openWindow 1440 x 900 sandbox true',
    'loadURL http://127.0.0.1:4600/?enter=1',
    'show',
  ])
})

test('the window opens where it was closed, maximised as it was', async () => {
  const dataDir = dataFolder()
  const screens = [
    { x: 0, y: 0, width: 1280, height: 760 },
    { x: 1280, y: 0, width: 1920, height: 1040 },
  ]
  const first = await booted({ dataDir, screens })
  expect(first.steps).toContain('openWindow 1280 x 760 sandbox true')
  first.windowState.bounds = { x: 1300, y: 20, width: 1500, height: 950 }
  first.windowState.isMaximized = true
  first.emit.window('close')
  const next = await booted({ dataDir, screens })
  expect(next.steps.slice(-4, -2)).toEqual(['openWindow 1500 x 950 sandbox true', 'maximize'])
})

test('a second start for the same data folder only brings the first window to the front', async () => {
  const second = await booted({ isFirst: false })
  expect(second.steps.at(-1)).toBe('exit 0')
  expect(second.startHost).not.toHaveBeenCalled()

  const first = await booted()
  first.emit.app('second-instance', ['panelwright', '--data', 'x'], '/')
  expect(first.steps.slice(-2)).toEqual(['restore', 'focus'])
  expect(first.boxes).toEqual([])
})

test('a flag that is not known is shown, and nothing is started', async () => {
  const { steps, startHost } = await booted({ argv: ['--dta', 'x'] })
  expect(steps.slice(1)).toEqual([expect.stringMatching(/^showErrorBox .*--dta/s), 'exit 2'])
  expect(startHost).not.toHaveBeenCalled()
})

test('an address that another program hands over is refused, at the start and later', async () => {
  for (const address of [
    'panelwright://cars/1',
    'https://elsewhere.invalid/',
    'https://elsewhere.invalid/car.zip',
  ]) {
    const { steps, startHost } = await booted({ argv: [address] })
    expect(steps.slice(1)).toEqual(['showErrorBox Panelwright opens no addresses.', 'exit 2'])
    expect(startHost).not.toHaveBeenCalled()
  }
  const { emit, page, boxes } = await booted()
  expect(emit.app('open-url', 'panelwright://cars/1')).toBe('held back')
  emit.app('second-instance', ['panelwright', 'panelwright://cars/1'], '/')
  expect(page.url).toBe('http://127.0.0.1:4600/?enter=1')
  expect(boxes).toEqual([])
})

test('a car’s file that is opened with the program only shows where it is brought in', async () => {
  const path = '/home/somebody/car-S-101.zip'
  const named = await booted({ argv: [path] })
  const macOs = await booted()
  expect(macOs.emit.app('open-file', path)).toBe('held back')
  const again = await booted()
  again.emit.app('second-instance', ['panelwright', path], '/')
  for (const { page, boxes, steps } of [named, macOs, again]) {
    expect(page.url).toBe('http://127.0.0.1:4600/?enter=1#open=car-file')
    expect(boxes).toMatchObject([{ message: 'A car’s file is brought in by hand.' }])
    expect(steps.join()).not.toContain('somebody')
  }
  // A file that is no car's, named by its address: as unknown as any other argument.
  const { steps } = await booted({ argv: ['file:///etc/hosts'] })
  expect(steps.at(-1)).toBe('exit 2')
})

test('other files are not opened', async () => {
  const { emit, boxes } = await booted()
  expect(emit.app('open-file', '/home/somebody/letter.pdf')).toBe('held back')
  expect(boxes).toEqual([])
})

test('a car’s file that macOS names before Electron is ready is not forgotten', async () => {
  const fake = fakeDesktop()
  const host = fakeHost(fake.steps)
  const early: StartHost = (options) => {
    fake.emit.app('open-file', '/home/somebody/car-S-101.zip')
    return host.startHost(options)
  }
  await boot(fake.desktop, early, ['--data', dataFolder()])
  expect(fake.page.url).toMatch(/#open=car-file$/)
})

test('a host that cannot start says why in a box and ends with an error', async () => {
  const startHost = () => Promise.reject(new Error('The data folder is in use.'))
  const { steps, dataDir } = await booted({ startHost })
  expect(steps.slice(-2)).toEqual(['showErrorBox The data folder is in use.', 'exit 1'])
  expect(existsSync(runningMarkPath(dataDir))).toBe(false)
})

test('quitting waits for the host to close, and closes it once', async () => {
  const { steps, emit, close } = await booted()
  emit.app('window-all-closed')
  expect(steps.at(-1)).toBe('quit')
  expect(emit.app('will-quit')).toBe('held back')
  expect(emit.app('will-quit')).toBe('held back')
  await vi.waitFor(() => expect(steps.at(-1)).toBe('exit 0'))
  expect(close).toHaveBeenCalledTimes(1)
})

test('a run that was cut off is told of by the next one, which can show the check', async () => {
  const { dataDir, boxes } = await booted()
  expect(boxes).toEqual([])
  const next = await booted({ dataDir, answer: () => 1 })
  expect(next.boxes).toMatchObject([
    { message: 'Panelwright was cut off the last time. What was recorded is kept.' },
  ])
  await vi.waitFor(() => expect(next.page.url).toMatch(/#open=check$/))
  expect(logOf(dataDir)).toContain('Panelwright was cut off the last time.')

  next.emit.app('will-quit')
  await vi.waitFor(() => expect(next.steps.at(-1)).toBe('exit 0'))
  expect((await booted({ dataDir })).boxes).toEqual([])
})

test.each(['uncaughtException', 'unhandledRejection'] as const)(
  'a defect (%s) stands in the log, closes the host and ends with an error',
  async (name) => {
    const { steps, close, dataDir } = await booted()
    process
      .listeners(name as 'SIGINT')
      .at(-1)
      ?.call(process, new Error('all is lost') as never)
    await vi.waitFor(() => expect(steps.at(-1)).toBe('exit 1'))
    expect(close).toHaveBeenCalledTimes(1)
    expect(steps.at(-2)).toMatch(/^showErrorBox Something went wrong in Panelwright itself/)
    expect(logOf(dataDir)).toMatch(/Z defect: Error: all is lost\n\s+at /)
    expect(existsSync(runningMarkPath(dataDir))).toBe(true)
  },
)

test('the menus reach the page by nothing but the name of a place', async () => {
  const { menus, page } = await booted()
  const item = itemsOf(menus[0]!).find(({ label }) => label === 'Owner reports')
  item?.click?.(null as never, undefined, null as never)
  expect(page.url).toBe('http://127.0.0.1:4600/?enter=1#open=/owner-reports')
})
