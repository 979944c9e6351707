/*
 * What the built main file gets for 'electron' where its runtime is not here: the used part of it, as far as a run from start to
 * end needs it. Each step is printed, the window asks the host for its page as a browser would, and a line on standard input
 * is the person who closes the window.
 */
import { EventEmitter } from 'node:events'
import process from 'node:process'
import type { BrowserWindowConstructorOptions, MenuItemConstructorOptions } from 'electron'

const note = (step: string): void => void process.stdout.write(`${step}\n`)

class App extends EventEmitter {
  readonly isPackaged = false
  readonly setName = (name: string) => note(`setName ${name}`)
  readonly setPath = (name: string) => note(`setPath ${name}`)
  readonly enableSandbox = () => note('enableSandbox')
  readonly requestSingleInstanceLock = () => true
  readonly whenReady = async () => note('whenReady')
  readonly exit = (code: number) => process.exit(code)
  readonly quit = () => {
    const isGone = ['before-quit', 'will-quit'].every((name) => !this.#isHeldBack(name))
    if (isGone) process.exit(0)
  }
  #isHeldBack(name: string): boolean {
    let isHeld = false
    this.emit(name, { preventDefault: () => (isHeld = true) })
    return isHeld
  }
}

export class BrowserWindow extends EventEmitter {
  readonly webContents = Object.assign(new EventEmitter(), {
    setWindowOpenHandler: () => {},
    session: { setPermissionRequestHandler: () => {}, setPermissionCheckHandler: () => {} },
  })
  constructor({ webPreferences }: BrowserWindowConstructorOptions) {
    super()
    note(`window ${JSON.stringify(webPreferences)}`)
  }
  readonly isDestroyed = () => false
  readonly isMaximized = () => false
  readonly getNormalBounds = () => ({ x: 0, y: 0, width: 1440, height: 900 })
  readonly show = () => note('show')
  /** The secret of the address is exchanged for a cookie, as in a browser. */
  readonly loadURL = async (url: string) => {
    const entered = await fetch(url, { redirect: 'manual' })
    const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
    const page = await fetch(new URL(entered.headers.get('location') ?? '/', url), { headers: { cookie } })
    note(`page ${page.status} ${/<title>(.*?)<\/title>/.exec(await page.text())?.[1]}`)
  }
}

const area = { x: 0, y: 0, width: 1920, height: 1040 }

export const app = new App()
export const dialog = { showErrorBox: (_title: string, words: string) => note(`box ${words}`) }
export const powerMonitor = new EventEmitter()
export const screen = {
  getPrimaryDisplay: () => ({ workArea: area }),
  getAllDisplays: () => [{ workArea: area }],
}
export const shell = {}
export const Menu = {
  buildFromTemplate: (template: readonly MenuItemConstructorOptions[]) => template,
  setApplicationMenu: (template: readonly MenuItemConstructorOptions[]) =>
    note(`menus ${template.map(({ label, role }) => label ?? role).join(' ')}`),
}

process.stdin.once('data', () => app.emit('window-all-closed'))
