import type { AppPart } from './desktop.ts'
import { isCarFile } from '../start-options.ts'

export interface OpenedFromOutside {
  /** Has `listener` called for every car's file that the system opens with the program, once for those that came before. */
  readonly onCarFile: (listener: () => void) => void
  /** Has `listener` called when the program is started once more on this data folder. */
  readonly onStartedAgain: (listener: () => void) => void
}

/**
 * What the system hands over from other programs. Addresses are refused; of a car's file it is noted only that there was one:
 * its path goes no further, and who brings it in chooses it on the screen. To be called before Electron is ready, as macOS names
 * a file early.
 */
export function watchOutside(app: AppPart): OpenedFromOutside {
  let isAsked = false
  let tellCarFile = (): void => void (isAsked = true)
  let tellStarted = (): void => {}
  app.on('open-url', (event) => event.preventDefault())
  app.on('open-file', (event, path) => {
    event.preventDefault()
    if (isCarFile(path)) tellCarFile()
  })
  app.on('second-instance', (_event, argv) => {
    tellStarted()
    // The first is the program itself.
    if (argv.slice(1).some(isCarFile)) tellCarFile()
  })
  return {
    onCarFile: (listener) => {
      tellCarFile = listener
      if (isAsked) listener()
    },
    onStartedAgain: (listener) => {
      tellStarted = listener
    },
  }
}
