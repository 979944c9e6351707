import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { runningMarkPath } from '../db/data-paths.ts'

export interface Run {
  /** The run before was ended by a power cut, a crash or the system. */
  readonly isAfterCutOff: boolean
  /** To be called when the host has closed. */
  readonly ended: () => void
}

/**
 * Marks in the data folder that the program runs there. Only for who has its host: another one would take the mark of that one
 * for its own. A disk that takes no mark stops nothing.
 */
export function beginRun(dataDir: string, log: (line: string) => void): Run {
  const path = runningMarkPath(dataDir)
  const tried = (work: () => void) => {
    try {
      work()
    } catch (error) {
      log(`the mark of this run: ${String(error)}`)
    }
  }
  const isAfterCutOff = existsSync(path)
  if (isAfterCutOff) log(CUT_OFF)
  tried(() => {
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
    writeFileSync(path, MARK, { mode: 0o600 })
  })
  return { isAfterCutOff, ended: () => tried(() => rmSync(path, { force: true })) }
}

export const CUT_OFF = 'Panelwright was cut off the last time. What was recorded is kept.'
const MARK = 'Panelwright is running on this data folder, or was cut off. This file goes when it ends.\n'
