import process from 'node:process'
import { afterEach, expect, test, vi } from 'vitest'
import { boot, type Desktop, type RunningHost } from '../../electron/boot.ts'
import type { StartOptions } from '../../electron/start-options.ts'

const data = ['--data', '/data/panelwright']

afterEach(() => {
  process.removeAllListeners('SIGINT')
  process.removeAllListeners('SIGTERM')
})

test('the steps come in their order, and the host is up before the window', async () => {
  const { desktop, steps, startHost } = fakeDesktop()
  await boot(desktop, startHost, [...data, '--port', '0'])
  expect(steps).toEqual([
    'setName Panelwright',
    'setPath userData /data/panelwright/private/window',
    'requestSingleInstanceLock',
    'enableSandbox',
    'whenReady',
    'startHost /data/panelwright 0',
    'createWindow sandbox true',
    'loadURL http://127.0.0.1:4600/?secret=1',
    'show',
  ])
})

test('a second start for the same data folder only brings the first window to the front', async () => {
  const second = fakeDesktop({ isFirst: false })
  await boot(second.desktop, second.startHost, data)
  expect(second.steps.at(-1)).toBe('exit 0')
  expect(second.startHost).not.toHaveBeenCalled()

  const first = fakeDesktop()
  await boot(first.desktop, first.startHost, data)
  first.emit('second-instance')
  expect(first.steps.slice(-2)).toEqual(['restore', 'focus'])
})

test('a flag that is not known is shown, and nothing is started', async () => {
  const { desktop, steps, startHost } = fakeDesktop()
  await boot(desktop, startHost, ['--dta', 'x'])
  expect(steps.slice(1)).toEqual([expect.stringMatching(/^showErrorBox .*--dta/s), 'exit 2'])
  expect(startHost).not.toHaveBeenCalled()
})

test('a host that cannot start says why in a box and ends with an error', async () => {
  const { desktop, steps } = fakeDesktop()
  await boot(desktop, () => Promise.reject(new Error('The data folder is in use.')), data)
  expect(steps.slice(-2)).toEqual(['showErrorBox The data folder is in use.', 'exit 1'])
})

test('quitting waits for the host to close, and closes it once', async () => {
  const { desktop, steps, startHost, emit, close } = fakeDesktop()
  await boot(desktop, startHost, data)
  emit('window-all-closed')
  expect(steps.at(-1)).toBe('quit')
  expect(emit('will-quit')).toBe('held back')
  expect(emit('will-quit')).toBe('held back')
  await vi.waitFor(() => expect(steps.at(-1)).toBe('exit 0'))
  expect(close).toHaveBeenCalledTimes(1)
})

test('a host that does not close cleanly ends with an error', async () => {
  const { desktop, steps, startHost, emit, close } = fakeDesktop()
  close.mockRejectedValue(new Error('disk full'))
  await boot(desktop, startHost, data)
  emit('will-quit')
  await vi.waitFor(() => expect(steps.at(-1)).toBe('exit 1'))
})

test('Ctrl-C quits as closing the window does', async () => {
  const { desktop, steps, startHost } = fakeDesktop()
  await boot(desktop, startHost, data)
  process.emit('SIGINT')
  expect(steps.at(-1)).toBe('quit')
})

/** The used part of Electron, noting each step; `emit` answers whether a listener held the event back. */
function fakeDesktop({ isFirst = true } = {}) {
  const steps: string[] = []
  const listeners = new Map<string, (event: { preventDefault: () => void }) => void>()
  const note = (step: string) => void steps.push(step)
  vi.spyOn(console, 'log').mockImplementation(() => {})
  vi.spyOn(console, 'error').mockImplementation(() => {})
  const desktop = {
    app: {
      setName: (name: string) => note(`setName ${name}`),
      setPath: (name: string, path: string) => note(`setPath ${name} ${path.replaceAll('\\', '/')}`),
      enableSandbox: () => note('enableSandbox'),
      requestSingleInstanceLock: () => (note('requestSingleInstanceLock'), isFirst),
      whenReady: async () => note('whenReady'),
      on: (name: string, listener: (event: { preventDefault: () => void }) => void) =>
        listeners.set(name, listener),
      quit: () => note('quit'),
      exit: (code: number) => note(`exit ${code}`),
    },
    dialog: { showErrorBox: (_title: string, text: string) => note(`showErrorBox ${text}`) },
    createWindow: (options: { webPreferences?: { sandbox?: boolean } }) => {
      note(`createWindow sandbox ${options.webPreferences?.sandbox}`)
      return {
        removeMenu: () => {},
        loadURL: async (url: string) => note(`loadURL ${url}`),
        show: () => note('show'),
        isMinimized: () => true,
        restore: () => note('restore'),
        focus: () => note('focus'),
        webContents: {
          on: () => {},
          setWindowOpenHandler: () => {},
          session: { setPermissionRequestHandler: () => {}, setPermissionCheckHandler: () => {} },
        },
      }
    },
  }
  const close = vi.fn(async () => {})
  const startHost = vi.fn(async (options: StartOptions): Promise<RunningHost> => {
    note(`startHost ${options.dataDir.replaceAll('\\', '/')} ${options.port}`)
    return { url: 'http://127.0.0.1:4600/', windowUrl: 'http://127.0.0.1:4600/?secret=1', close }
  })
  const emit = (name: string): string => {
    let answer = 'let through'
    listeners.get(name)?.({ preventDefault: () => (answer = 'held back') })
    return answer
  }
  return { desktop: desktop as unknown as Desktop, steps, startHost, emit, close }
}
