import process from 'node:process'
import { app, BrowserWindow, dialog } from 'electron'
import { boot } from './boot.ts'
import { startHost } from './host.ts'

// Run from a folder the first argument is the script; the packaged program has none.
const argv = process.argv.slice(app.isPackaged ? 1 : 2)

// Not awaited here: Electron is not ready before this file has ended.
boot({ app, dialog, createWindow: (options) => new BrowserWindow(options) }, startHost, argv).catch(
  (error: unknown) => {
    console.error(error)
    app.exit(1)
  },
)
