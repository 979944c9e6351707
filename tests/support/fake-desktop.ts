import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type {
  BrowserWindowConstructorOptions,
  MenuItemConstructorOptions,
  MessageBoxOptions,
  Rectangle,
} from 'electron'
import { onTestFinished, vi } from 'vitest'
import type { RunningHost } from '../../electron/boot.ts'
import type { Desktop, OpenedWindow } from '../../electron/desktop/desktop.ts'
import type { StartOptions } from '../../electron/start-options.ts'

export interface FakeDesktopOptions {
  readonly isFirst?: boolean
  /** Work areas of the screens, the main one first. */
  readonly screens?: readonly Rectangle[]
  /** Which button is pressed in each box; the first, unless a test answers. */
  readonly answer?: (box: MessageBoxOptions) => number | Promise<number>
  /** Where a file is saved; nowhere unless a test says so. */
  readonly saveTo?: string
}

/** The used part of Electron, noting each step. What it is asked by each event is kept, so that a test can be the system. */
export function fakeDesktop(options: FakeDesktopOptions = {}) {
  const { isFirst = true, screens = [{ x: 0, y: 0, width: 1920, height: 1040 }], saveTo = '' } = options
  const steps: string[] = []
  const note = (step: string) => void steps.push(step)
  const boxes: MessageBoxOptions[] = []
  const menus: (readonly MenuItemConstructorOptions[])[] = []
  const popUps: (readonly MenuItemConstructorOptions[])[] = []
  const windowState = { bounds: { x: 0, y: 0, width: 0, height: 0 }, isMaximized: false, isDestroyed: false }
  const page = { url: '' }
  const [app, window, contents, power] = [listening(), listening(), listening(), listening()]
  vi.spyOn(console, 'log').mockImplementation(() => {})
  vi.spyOn(console, 'error').mockImplementation(() => {})

  const opened = {
    window: {
      on: window.on,
      loadURL: async (url: string) => {
        page.url = url
        note(`loadURL ${url}`)
      },
      show: () => note('show'),
      focus: () => note('focus'),
      maximize: () => note('maximize'),
      isMinimized: () => true,
      isMaximized: () => windowState.isMaximized,
      isDestroyed: () => windowState.isDestroyed,
      restore: () => note('restore'),
      getNormalBounds: () => windowState.bounds,
      webContents: {
        on: contents.on,
        setWindowOpenHandler: () => {},
        getURL: () => page.url,
        downloadURL: (url: string) => note(`downloadURL ${url}`),
        reload: () => note('reload'),
        forcefullyCrashRenderer: () => note('forcefullyCrashRenderer'),
        print: () => note('print'),
        printToPDF: async () => Buffer.from('%PDF-1.7'),
        session: { setPermissionRequestHandler: () => {}, setPermissionCheckHandler: () => {} },
      },
    },
    ask: async (box: MessageBoxOptions) => {
      boxes.push(box)
      return { response: (await options.answer?.(box)) ?? 0, checkboxChecked: false }
    },
    askWhere: async () => ({ canceled: saveTo === '', filePath: saveTo }),
    popUp: (template: readonly MenuItemConstructorOptions[]) => popUps.push(template),
  }
  const desktop = {
    app: {
      on: app.on,
      setName: (name: string) => note(`setName ${name}`),
      setPath: (name: string, path: string) => note(`setPath ${name} ${path.replaceAll('\\', '/')}`),
      enableSandbox: () => note('enableSandbox'),
      requestSingleInstanceLock: () => (note('requestSingleInstanceLock'), isFirst),
      whenReady: async () => note('whenReady'),
      quit: () => note('quit'),
      exit: (code: number) => note(`exit ${code}`),
    },
    dialog: { showErrorBox: (_title: string, text: string) => note(`showErrorBox ${text}`) },
    screen: {
      getAllDisplays: () => screens.map((workArea) => ({ workArea })),
      getPrimaryDisplay: () => ({ workArea: screens[0]! }),
    },
    shell: { showItemInFolder: (path: string) => note(`showItemInFolder ${path}`) },
    powerMonitor: { on: power.on },
    setMenu: (template: readonly MenuItemConstructorOptions[]) => menus.push(template),
    openWindow: ({ webPreferences, width, height }: BrowserWindowConstructorOptions) => {
      note(`openWindow ${width} x ${height} sandbox ${webPreferences?.sandbox}`)
      return opened
    },
  }
  return {
    desktop: desktop as unknown as Desktop,
    opened: opened as unknown as OpenedWindow,
    steps,
    boxes,
    menus,
    popUps,
    windowState,
    page,
    emit: { app: app.emit, window: window.emit, contents: contents.emit, power: power.emit },
  }
}

type Listener = (event: { readonly preventDefault: () => void }, ...rest: never[]) => void

/** Something with events; `emit` answers whether a listener held the event back. */
function listening() {
  const listeners = new Map<string, Listener[]>()
  return {
    on: (name: string, listener: Listener) => listeners.set(name, [...(listeners.get(name) ?? []), listener]),
    emit: (name: string, ...rest: unknown[]): 'held back' | 'let through' => {
      let answer: 'held back' | 'let through' = 'let through'
      const event = { preventDefault: () => void (answer = 'held back') }
      for (const listener of listeners.get(name) ?? []) listener(event, ...(rest as never[]))
      return answer
    },
  }
}

/** A host that notes when it is started and closed. */
export function fakeHost(steps: string[]) {
  const close = vi.fn(async () => {})
  const underWay = vi.fn((): readonly string[] => [])
  const startHost = vi.fn(async ({ port }: StartOptions): Promise<RunningHost> => {
    steps.push(`startHost ${port}`)
    const url = 'http://127.0.0.1:4600/'
    return { url, windowUrl: `${url}?enter=1`, underWay, close }
  })
  return { startHost, close, underWay }
}

/** A data folder that goes with its test. */
export function dataFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-desktop-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** All items of all menus, in their order. */
export function itemsOf(menus: readonly MenuItemConstructorOptions[]): readonly MenuItemConstructorOptions[] {
  return menus.flatMap(({ submenu, ...item }) => [item, ...(Array.isArray(submenu) ? itemsOf(submenu) : [])])
}
