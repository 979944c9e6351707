import type { MenuItemConstructorOptions } from 'electron'
import { type MenuPlace, SCREENS } from '../../domain/screens.ts'
import { TITLE } from './desktop.ts'

/** What the menus do beside what Electron does by itself. */
export interface MenuActs {
  readonly open: (place: MenuPlace) => void
  readonly print: () => void
  readonly savePage: () => void
  readonly about: () => void
  readonly saveLicences: () => void
  readonly showDataFolder: () => void
  readonly showLogs: () => void
}

/** The menus with the shortcuts that are usual on each platform; '&' marks the letter that opens a menu by Alt. */
export function menuTemplate(
  platform: NodeJS.Platform,
  acts: MenuActs,
): readonly MenuItemConstructorOptions[] {
  const isMac = platform === 'darwin'
  return [
    ...(isMac ? [macMenu(acts)] : []),
    fileMenu(acts, isMac),
    { role: 'editMenu' },
    viewMenu(acts),
    ...(isMac ? [windowMenu] : []),
    helpMenu(acts, isMac),
  ]
}

const line: MenuItemConstructorOptions = { type: 'separator' }

function macMenu({ about }: MenuActs): MenuItemConstructorOptions {
  const submenu: MenuItemConstructorOptions[] = [
    { label: `About ${TITLE}`, click: about },
    line,
    { role: 'services' },
    line,
    { role: 'hide' },
    { role: 'hideOthers' },
    { role: 'unhide' },
    line,
    { role: 'quit' },
  ]
  return { label: TITLE, submenu }
}

function fileMenu({ print, savePage }: MenuActs, isMac: boolean): MenuItemConstructorOptions {
  const submenu: MenuItemConstructorOptions[] = [
    { label: 'Save page as PDF…', accelerator: 'CmdOrCtrl+S', click: savePage },
    { label: 'Print…', accelerator: 'CmdOrCtrl+P', click: print },
    ...(isMac ? [] : [line, { role: 'quit', accelerator: 'Ctrl+Q' } as const]),
  ]
  return { label: '&File', submenu }
}

function viewMenu({ open }: MenuActs): MenuItemConstructorOptions {
  const submenu: MenuItemConstructorOptions[] = [
    ...SCREENS.map(({ to, words }, at) => ({
      label: words,
      accelerator: `CmdOrCtrl+${at + 1}`,
      click: () => open(to),
    })),
    line,
    { role: 'reload' },
    line,
    { role: 'resetZoom' },
    { role: 'zoomIn' },
    // Where '+' needs Shift, people press '='.
    { role: 'zoomIn', accelerator: 'CmdOrCtrl+=', visible: false },
    { role: 'zoomOut' },
    line,
    { role: 'togglefullscreen' },
  ]
  return { label: '&View', submenu }
}

/** Without 'close': closing the only window ends the program, which has its own item. */
const windowMenu: MenuItemConstructorOptions = {
  role: 'window',
  submenu: [{ role: 'minimize' }, { role: 'zoom' }, line, { role: 'front' }],
}

function helpMenu(acts: MenuActs, isMac: boolean): MenuItemConstructorOptions {
  const submenu: MenuItemConstructorOptions[] = [
    { label: 'Help for this screen', accelerator: 'F1', click: () => acts.open('help') },
    { label: 'Keyboard map', click: () => acts.open('keyboard') },
    line,
    { label: 'Show the data folder', click: acts.showDataFolder },
    { label: 'Show the logs', click: acts.showLogs },
    line,
    { label: 'Save the licences…', click: acts.saveLicences },
    ...(isMac ? [] : [{ label: `About ${TITLE}`, click: acts.about }]),
  ]
  return { role: 'help', label: '&Help', submenu }
}
