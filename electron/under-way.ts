import type { CheckDesk } from './api/check-desk.ts'
import type { CopiesDesk } from './api/copies-desk.ts'
import type { WholeDesk } from './api/whole-desk.ts'
import type { OpenCarFileDesk } from './bag/car-file-desk.ts'

export interface BusyDesks {
  readonly copies: Pick<CopiesDesk, 'state' | 'restoring'>
  readonly check: Pick<CheckDesk, 'state'>
  readonly whole: Pick<WholeDesk, 'progress' | 'takingIn'>
  readonly carFiles: Pick<OpenCarFileDesk, 'making'>
}

/**
 * What the end of the host would break off and somebody would have to begin again, a sentence each. Reading alone, as a check
 * or a copy that is verified, is none of it.
 */
export function wordsUnderWay({ copies, check, whole, carFiles }: BusyDesks): readonly string[] {
  const files = carFiles.making()
  const each: readonly (string | false)[] = [
    copies.state().doing.kind === 'copying' && 'A copy of the workshop is being made.',
    copies.restoring() !== null && 'A copy is being restored.',
    check.state().doing.kind === 'mending' && 'Damaged files are being mended.',
    whole.progress()?.doing === 'writing' && 'The whole workshop is being taken out.',
    whole.takingIn() !== null && 'A workshop is being taken in.',
    files === 1 && 'The file of a car is being made.',
    files > 1 && `The files of ${files} cars are being made.`,
  ]
  return each.filter((words) => words !== false)
}
