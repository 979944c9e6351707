import process from 'node:process'
import { app, BrowserWindow, dialog, Menu, powerMonitor, screen, shell } from 'electron'
import { boot } from './boot.ts'
import { type Desktop, TITLE } from './desktop/desktop.ts'
import { startHost } from './host.ts'
import { holdMemory } from './hold-memory.ts'

holdMemory()

// Run from a folder the first argument is the script; the packaged program has none.
const argv = process.argv.slice(app.isPackaged ? 1 : 2)

const desktop: Desktop = {
  app,
  dialog,
  screen,
  shell,
  powerMonitor,
  setMenu: (template) => Menu.setApplicationMenu(Menu.buildFromTemplate([...template])),
  openWindow: (options) => {
    const window = new BrowserWindow(options)
    return {
      window,
      ask: (box) => dialog.showMessageBox(window, { title: TITLE, ...box }),
      askWhere: (box) => dialog.showSaveDialog(window, box),
      popUp: (template) => Menu.buildFromTemplate([...template]).popup({ window }),
    }
  },
}

// Not awaited here: Electron is not ready before this file has ended.
boot(desktop, startHost, argv).catch((error: unknown) => {
  console.error(error)
  app.exit(1)
})
