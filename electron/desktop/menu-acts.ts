import { writeFile } from 'node:fs/promises'
import process from 'node:process'
import { databasePath, logsFolder } from '../../db/data-paths.ts'
import { versionWords } from '../../domain/program-version.ts'
import { errorMessage } from '../../domain/text/error-words.ts'
import { readBuiltFrom } from '../built-from.ts'
import { newestLog } from '../log-file.ts'
import { goTo } from '../window.ts'
import type { Desktop, OpenedWindow } from './desktop.ts'
import type { MenuActs } from './menus.ts'

export interface MenuActsOptions {
  /** Of the host, without a slash at its end. */
  readonly origin: string
  readonly dataDir: string
  readonly log: (line: string) => void
}

/** What the menus' own items do in the one window; what goes wrong in it is logged. */
export function createMenuActs(
  { shell }: Pick<Desktop, 'shell'>,
  opened: OpenedWindow,
  { origin, dataDir, log }: MenuActsOptions,
): MenuActs {
  const { window, ask } = opened
  const { webContents } = window
  const saveLicences = () => webContents.downloadURL(`${origin}/licences.txt`)
  const about = async () => {
    const { response } = await ask({
      ...aboutBox(process.versions),
      buttons: ['Close', 'Save the licences…'],
    })
    if (response === 1) saveLicences()
  }
  const failed = (error: unknown) => log(`menu: ${String(error)}`)
  return {
    open: (place) => goTo(window, origin, place, log),
    print: () => webContents.print(),
    savePage: () => void savePage(opened).catch(failed),
    about: () => void about().catch(failed),
    saveLicences,
    showDataFolder: () => shell.showItemInFolder(databasePath(dataDir)),
    showLogs: () => {
      // Nothing is shown of a file that is not there yet.
      log('the logs are shown')
      shell.showItemInFolder(newestLog(logsFolder(dataDir)))
    },
  }
}

/** The page as it is printed, where the person says. */
async function savePage({ window, ask, askWhere }: OpenedWindow): Promise<void> {
  const { canceled, filePath } = await askWhere({
    title: 'Save page as PDF',
    defaultPath: 'Panelwright page.pdf',
    filters: [{ name: 'PDF', extensions: ['pdf'] }],
  })
  if (canceled || filePath === '') return
  try {
    await writeFile(filePath, await window.webContents.printToPDF({ pageSize: 'A4', printBackground: true }))
  } catch (error) {
    const detail = `${errorMessage(error)}\n\nChoose another folder, or make room.`
    await ask({ type: 'error', message: 'The page could not be saved.', detail })
  }
}

function aboutBox({ electron, chrome, node }: NodeJS.ProcessVersions) {
  return {
    type: 'info' as const,
    title: 'About Panelwright',
    message: `Panelwright ${versionWords(readBuiltFrom())}`,
    detail: [
      'For workshops that restore the bodyshells of old cars. MIT licence.',
      `Runs on Electron ${electron ?? '-'}, Chromium ${chrome ?? '-'} and Node ${node}.`,
      'The licences of everything that it is made with can be saved as a file.',
    ].join('\n'),
    defaultId: 0,
    cancelId: 0,
  }
}
