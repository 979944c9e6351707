import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { isMissing } from '../../db/system-error.ts'
import { type WindowState, windowStateSchema } from '../../domain/window-state.ts'
import { windowProfile } from '../data-folder.ts'
import type { WindowPart } from './desktop.ts'

/** Beside the window's own profile, so that no copy has it. */
export function windowStatePath(dataDir: string): string {
  return join(windowProfile(dataDir), 'window-state.json')
}

/** Null before the first time, and for what this program has not written, which is said in the log. */
export function readWindowState(path: string, log: (line: string) => void): WindowState | null {
  try {
    return windowStateSchema.parse(JSON.parse(readFileSync(path, 'utf8')))
  } catch (error) {
    if (!isMissing(error)) log('window: its place could not be read, so it opens in the middle')
    return null
  }
}

/** Moving a window makes hundreds of events. */
const QUIET_MS = 500

/** Keeps where the window stands from now on; a disk that takes nothing stops nothing. */
export function keepWindowState(window: WindowPart, path: string, log: (line: string) => void): void {
  let timer: NodeJS.Timeout | undefined
  const keep = () => {
    clearTimeout(timer)
    timer = undefined
    if (window.isDestroyed()) return
    try {
      write(path, { ...window.getNormalBounds(), isMaximized: window.isMaximized() })
    } catch (error) {
      log(`window: its place could not be kept: ${String(error)}`)
    }
  }
  const keepSoon = () => {
    timer ??= setTimeout(keep, QUIET_MS)
  }
  window.on('move', keepSoon)
  window.on('resize', keepSoon)
  window.on('maximize', keepSoon)
  window.on('unmaximize', keepSoon)
  window.on('close', keep)
  window.on('closed', () => clearTimeout(timer))
}

function write(path: string, { x, y, width, height, isMaximized }: WindowState): void {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
  const text = JSON.stringify({ x, y, width, height, isMaximized })
  writeFileSync(`${path}.part`, text, { mode: 0o600 })
  renameSync(`${path}.part`, path)
}
