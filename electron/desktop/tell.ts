import { CUT_OFF } from '../last-run.ts'
import type { OpenedWindow } from './desktop.ts'
import type { MenuActs } from './menus.ts'

export interface Telling {
  readonly ask: OpenedWindow['ask']
  readonly open: MenuActs['open']
  readonly log: (line: string) => void
}

/** Says how a car's file is brought in that the system has opened with the program; the page learns no path. */
export function tellHowToBringIn({ ask, open, log }: Telling): void {
  open('car-file')
  ask({
    type: 'info',
    message: 'A car’s file is brought in by hand.',
    detail:
      'On Cars choose ‘Bring in a car’s file’ and then the file. It is looked through before anything is kept, and a manager decides.\n\nA whole workshop is taken in where Panelwright is started without one.',
    buttons: ['Go on'],
  }).catch((error: unknown) => log(String(error)))
}

/** Says that the last run did not end by itself, and offers to have the workshop checked. */
export function tellCutOff({ ask, open, log }: Telling): void {
  ask({
    type: 'info',
    message: CUT_OFF,
    detail:
      'The computer lost its power, or the program was ended from outside. If you are not sure that the disk is well, have the workshop checked.',
    buttons: ['Go on', 'Show the check'],
    defaultId: 0,
    cancelId: 0,
    noLink: true,
  }).then(
    ({ response }) => {
      if (response === 1) open('check')
    },
    (error: unknown) => log(String(error)),
  )
}
