import process from 'node:process'
import { within } from '../within.ts'
import type { Desktop, OpenedWindow } from './desktop.ts'

export interface LeavingOptions {
  /** What would be broken off, a sentence each; none when nothing is under way. */
  readonly underWay: () => readonly string[]
  readonly close: () => Promise<void>
  /** Notes that this run has ended well. */
  readonly ended: () => void
  readonly log: (line: string) => void
}

/** A host that hangs must not keep its computer's window away for ever. */
const CLOSE_MOST_MS = 30_000
/** Windows ends what takes more than five seconds when the session ends. What is recorded is safe at every moment. */
const QUIET_CLOSE_MOST_MS = 4_000
const LOOK_MS = 500

/**
 * Ends the program in order: a person is asked first while a copy or a file is being made, the system is not kept waiting, and
 * the host is closed before the process goes.
 */
export function leaveInOrder(
  { app, powerMonitor }: Pick<Desktop, 'app' | 'powerMonitor'>,
  { window, ask }: OpenedWindow,
  { underWay, close, ended, log }: LeavingOptions,
): void {
  let isDecided = false
  let isAsking = false
  let closeMostMs = CLOSE_MOST_MS
  let waiting: NodeJS.Timeout | undefined

  const leave = () => {
    clearInterval(waiting)
    isDecided = true
    app.quit()
  }
  const leaveQuietly = () => {
    closeMostMs = QUIET_CLOSE_MOST_MS
    leave()
  }
  const waitAndLeave = () => {
    waiting = setInterval(() => {
      if (underWay().length === 0) leave()
    }, LOOK_MS)
  }
  const askFirst = async (doing: readonly string[]) => {
    const { response } = await ask(breakingOffBox(doing))
    clearInterval(waiting)
    if (response === 0) waitAndLeave()
    if (response === 1) leave()
  }
  const mayLeave = (event: { readonly preventDefault: () => void }) => {
    const doing = isDecided ? [] : underWay()
    if (doing.length === 0) return
    event.preventDefault()
    if (isAsking) return
    isAsking = true
    askFirst(doing)
      .catch((error: unknown) => log(`leaving: ${String(error)}`))
      .finally(() => (isAsking = false))
  }

  // The window would be gone before the program asks.
  window.on('close', mayLeave)
  app.on('before-quit', mayLeave)
  app.on('window-all-closed', () => app.quit())

  window.on('session-end', leaveQuietly)
  // The types leave the event out; preventing it asks the system to wait for the end of the program.
  powerMonitor.on('shutdown', (event?: { readonly preventDefault: () => void }) => {
    event?.preventDefault()
    leaveQuietly()
  })
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, leaveQuietly)

  let isClosing = false
  app.on('will-quit', (event) => {
    event.preventDefault()
    if (isClosing) return
    isClosing = true
    within(closeMostMs, close()).then(
      () => {
        ended()
        app.exit(0)
      },
      (error: unknown) => {
        log(`The host did not close cleanly: ${String(error)}`)
        app.exit(1)
      },
    )
  })
}

function breakingOffBox(doing: readonly string[]) {
  return {
    type: 'question' as const,
    message: doing.join('\n'),
    detail:
      'If Panelwright quits now, this is broken off and has to be begun again. Everything that was recorded is kept either way.',
    buttons: ['Quit when it is done', 'Quit now', 'Go on working'],
    defaultId: 0,
    cancelId: 2,
    noLink: true,
  }
}
