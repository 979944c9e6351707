import { homedir } from 'node:os'
import process from 'node:process'
import { logsFolder } from '../db/data-paths.ts'
import { errorMessage } from '../domain/text/error-words.ts'
import { windowBounds } from '../domain/window-state.ts'
import { defaultDataFolder, windowProfile } from './data-folder.ts'
import { endOnDefects } from './defects.ts'
import { type Desktop, type OpenedWindow, TITLE } from './desktop/desktop.ts'
import { leaveInOrder } from './desktop/leaving.ts'
import { createMenuActs } from './desktop/menu-acts.ts'
import { menuTemplate } from './desktop/menus.ts'
import { watchOutside } from './desktop/opened-from-outside.ts'
import { recoverPage } from './desktop/page-recovery.ts'
import { offerTextMenu } from './desktop/text-menu.ts'
import { tellCutOff, tellHowToBringIn } from './desktop/tell.ts'
import { keepWindowState, readWindowState, windowStatePath } from './desktop/window-state.ts'
import { beginRun } from './last-run.ts'
import { openLog } from './log-file.ts'
import { parseStartOptions, type StartOptions } from './start-options.ts'
import { showHost, windowOptions } from './window.ts'

export interface RunningHost {
  /** Address of the host, for printing. */
  readonly url: string
  /** The same with the one-time secret of the host's own window. */
  readonly windowUrl: string
  /** What closing would break off, a sentence each. */
  readonly underWay: () => readonly string[]
  readonly close: () => Promise<void>
}
export type StartHost = (options: StartOptions) => Promise<RunningHost>

/** The boot list of the desktop program: every step in order, nothing hidden elsewhere. */
export async function boot(desktop: Desktop, startHost: StartHost, argv: readonly string[]): Promise<void> {
  const { app, dialog, screen } = desktop
  app.setName(TITLE)
  const outside = watchOutside(app)

  const parsed = parseStartOptions(argv, defaultDataFolder({ ...process, home: homedir() }), process.cwd())
  if (!parsed.ok) return stop(desktop, 2, parsed.message)
  const { dataDir } = parsed.options

  // One window for each data folder: its profile lies inside, and the lock goes by the profile.
  app.setPath('userData', windowProfile(dataDir))
  if (!app.requestSingleInstanceLock()) return app.exit(0)

  const log = openLog({ folder: logsFolder(dataDir), clock: Date.now, print: console.error })
  let host: RunningHost | undefined
  endOnDefects({
    log,
    close: () => host?.close(),
    tell: (words) => dialog.showErrorBox(TITLE, words),
    exit: (code) => app.exit(code),
  })

  app.enableSandbox()
  await app.whenReady()

  try {
    host = await startHost(parsed.options)
  } catch (error) {
    return stop(desktop, 1, errorMessage(error))
  }
  const { url, windowUrl, underWay, close } = host
  const { origin } = new URL(url)
  const run = beginRun(dataDir, log)

  const statePath = windowStatePath(dataDir)
  const state = readWindowState(statePath, log)
  const opened = desktop.openWindow({ ...windowOptions, ...windowBounds(state, workAreas(screen)) })
  const { window } = opened
  if (state?.isMaximized === true) window.maximize()
  keepWindowState(window, statePath, log)

  const menuActs = createMenuActs(desktop, opened, { origin, dataDir, log })
  desktop.setMenu(menuTemplate(process.platform, menuActs))
  offerTextMenu(opened)
  recoverPage(desktop, opened, { log, clock: Date.now })
  leaveInOrder(desktop, opened, { underWay, close, ended: run.ended, log })

  try {
    await showHost(window, windowUrl)
    console.log(`Panelwright is ready at ${url}`)
  } catch (error) {
    dialog.showErrorBox(TITLE, `The window could not show ${url}: ${String(error)}`)
    return app.quit()
  }

  outside.onStartedAgain(() => bringToFront(opened))
  const telling = { ...opened, open: menuActs.open, log }
  outside.onCarFile(() => tellHowToBringIn(telling))
  if (parsed.isWithCarFile) tellHowToBringIn(telling)
  if (run.isAfterCutOff) tellCutOff(telling)
}

function stop({ app, dialog }: Desktop, code: number, message: string): void {
  console.error(message)
  dialog.showErrorBox(TITLE, message)
  app.exit(code)
}

/** The main one first. */
function workAreas(screen: Desktop['screen']): Parameters<typeof windowBounds>[1] {
  return [screen.getPrimaryDisplay().workArea, ...screen.getAllDisplays().map(({ workArea }) => workArea)]
}

function bringToFront({ window }: OpenedWindow): void {
  if (window.isMinimized()) window.restore()
  window.focus()
}
