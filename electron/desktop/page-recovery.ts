import type { Desktop, OpenedWindow } from './desktop.ts'

export interface RecoveryOptions {
  readonly log: (line: string) => void
  /** Epoch milliseconds. */
  readonly clock: () => number
}

/** A page that ends this often in so short a time is not opened again by itself. */
const MOST_ENDS = 3
const IN_MS = 10 * 60_000

const WHAT_IS_KEPT =
  'What was saved or sent is kept, also what still waits to be sent. What was being typed at that moment may have to be typed again.'

/** Opens the page again when it has crashed or hangs, and says what happened. What other parts of the window end by is logged. */
export function recoverPage(
  { app }: Pick<Desktop, 'app'>,
  { window, ask }: OpenedWindow,
  { log, clock }: RecoveryOptions,
): void {
  const { webContents } = window
  let ends: readonly number[] = []
  let isEndedByHand = false
  let hanging: AbortController | null = null

  const tell = async (reason: string) => {
    if (ends.length < MOST_ENDS) {
      webContents.reload()
      await ask(crashedBox(reason))
      return
    }
    const { response } = await ask(crashedAgainBox(reason))
    ends = []
    if (response === 0) webContents.reload()
    else app.quit()
  }
  webContents.on('render-process-gone', (_event, { reason, exitCode }) => {
    if (reason === 'clean-exit') return
    log(`page: its process ended (${reason}, ${exitCode})`)
    hanging?.abort()
    if (isEndedByHand) {
      isEndedByHand = false
      webContents.reload()
      return
    }
    ends = [...ends, clock()].filter((at) => clock() - at < IN_MS)
    tell(reason).catch(logDefect)
  })

  const offer = async (signal: AbortSignal) => {
    const { response } = await ask({ ...hangingBox, signal })
    if (response !== 1 || signal.aborted) return
    isEndedByHand = true
    webContents.forcefullyCrashRenderer()
  }
  window.on('unresponsive', () => {
    if (hanging !== null) return
    log('page: it does not answer')
    hanging = new AbortController()
    offer(hanging.signal)
      .catch(logDefect)
      .finally(() => (hanging = null))
  })
  window.on('responsive', () => hanging?.abort())

  app.on('child-process-gone', (_event, { type, reason, exitCode, name }) => {
    if (reason !== 'clean-exit') log(`${name ?? type}: its process ended (${reason}, ${exitCode})`)
  })

  function logDefect(error: unknown): void {
    log(`page: ${String(error)}`)
  }
}

function crashedBox(reason: string) {
  return {
    type: 'warning' as const,
    message: 'The screen stopped working and was opened again.',
    detail: `${WHAT_IS_KEPT}\n\nThe system says: ${reason}.`,
    buttons: ['Go on working'],
  }
}

function crashedAgainBox(reason: string) {
  return {
    type: 'error' as const,
    message: `The screen stopped working ${MOST_ENDS} times within ten minutes.`,
    detail: `${WHAT_IS_KEPT}\n\nThe system says: ${reason}. If it goes on, quit, start the computer again and then Panelwright. Help shows where the logs are.`,
    buttons: ['Open the screen again', 'Quit Panelwright'],
    defaultId: 0,
    cancelId: 0,
    noLink: true,
  }
}

const hangingBox = {
  type: 'warning' as const,
  message: 'The screen does not answer.',
  detail: `It may only be busy. ${WHAT_IS_KEPT}`,
  buttons: ['Wait', 'Open the screen again'],
  defaultId: 0,
  cancelId: 0,
  noLink: true,
}
