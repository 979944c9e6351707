import { homedir } from 'node:os'
import process from 'node:process'
import type { App, BrowserWindow, BrowserWindowConstructorOptions, Dialog } from 'electron'
import { defaultDataFolder, windowProfile } from './data-folder.ts'
import { parseStartOptions, type StartOptions } from './start-options.ts'
import { showHost, type WindowPart, windowOptions } from './window.ts'

/** The part of Electron that is used, so that the list below can be checked without its runtime. */
export interface Desktop {
  readonly app: Pick<
    App,
    'setName' | 'setPath' | 'enableSandbox' | 'requestSingleInstanceLock' | 'whenReady' | 'on'
  > &
    Pick<App, 'quit' | 'exit'>
  readonly dialog: Pick<Dialog, 'showErrorBox'>
  readonly createWindow: (options: BrowserWindowConstructorOptions) => WindowPart & WindowFocus
}
export type WindowFocus = Pick<BrowserWindow, 'isMinimized' | 'restore' | 'focus'>

export interface RunningHost {
  /** Address of the host, for printing. */
  readonly url: string
  /** The same with the one-time secret of the host's own window. */
  readonly windowUrl: string
  readonly close: () => Promise<void>
}
export type StartHost = (options: StartOptions) => Promise<RunningHost>

/** The boot list of the desktop program: every step in order, nothing hidden elsewhere. */
export async function boot(desktop: Desktop, startHost: StartHost, argv: readonly string[]): Promise<void> {
  const { app, dialog } = desktop
  app.setName('Panelwright')

  const parsed = parseStartOptions(argv, defaultDataFolder({ ...process, home: homedir() }), process.cwd())
  if (!parsed.ok) return stop(desktop, 2, parsed.message)

  // One window for each data folder: its profile lies inside, and the lock goes by the profile.
  app.setPath('userData', windowProfile(parsed.options.dataDir))
  if (!app.requestSingleInstanceLock()) return app.exit(0)

  app.enableSandbox()
  await app.whenReady()

  let host: RunningHost
  try {
    host = await startHost(parsed.options)
  } catch (error) {
    return stop(desktop, 1, error instanceof Error ? error.message : String(error))
  }
  closeHostBeforeQuitting(desktop, host)

  const window = desktop.createWindow(windowOptions)
  app.on('second-instance', () => bringToFront(window))
  app.on('window-all-closed', () => app.quit())
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => app.quit())

  try {
    await showHost(window, host.windowUrl)
    console.log(`Panelwright is ready at ${host.url}`)
  } catch (error) {
    dialog.showErrorBox('Panelwright', `The window could not show ${host.url}: ${String(error)}`)
    app.quit()
  }
}

function stop({ app, dialog }: Desktop, code: number, message: string): void {
  console.error(message)
  dialog.showErrorBox('Panelwright', message)
  app.exit(code)
}

function closeHostBeforeQuitting({ app }: Desktop, host: RunningHost): void {
  let closing = false
  app.on('will-quit', (event) => {
    event.preventDefault()
    if (closing) return
    closing = true
    host.close().then(
      () => app.exit(0),
      (error: unknown) => {
        console.error('The host did not close cleanly:', error)
        app.exit(1)
      },
    )
  })
}

function bringToFront(window: WindowPart & WindowFocus): void {
  if (window.isMinimized()) window.restore()
  window.focus()
}
