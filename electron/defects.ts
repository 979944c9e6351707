import process from 'node:process'
import { errorStack } from '../domain/text/error-words.ts'
import { within } from './within.ts'

export interface DefectOptions {
  readonly log: (line: string) => void
  /** Closes the host, as far as there is one yet. */
  readonly close: () => Promise<void> | undefined
  /** Shows words to whoever sits there. */
  readonly tell: (words: string) => void
  readonly exit: (code: number) => void
}

/** After a defect nothing may be relied on: the host gets this long. */
const CLOSE_MOST_MS = 3_000

/** Ends the program with code 1 on a defect that nothing else has caught; the log has its place, the person words. */
export function endOnDefects({ log, close, tell, exit }: DefectOptions): void {
  let isEnding = false
  const end = (error: unknown) => {
    log(`defect: ${errorStack(error)}`)
    if (isEnding) return
    isEnding = true
    within(CLOSE_MOST_MS, Promise.resolve(close()))
      .catch((closing: unknown) => log(`The host did not close cleanly: ${String(closing)}`))
      .finally(() => {
        tell(ENDED_BY_DEFECT)
        exit(1)
      })
  }
  process.on('uncaughtException', end)
  process.on('unhandledRejection', end)
}

const ENDED_BY_DEFECT =
  'Something went wrong in Panelwright itself, so it ends. What was recorded is kept.\n\nStart it again. What happened stands in the logs: Help shows where they are.'
