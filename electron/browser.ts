import { type ChildProcess, spawn } from 'node:child_process'
import { accessSync, constants, statSync } from 'node:fs'
import { homedir } from 'node:os'
import { posix, win32 } from 'node:path'
import process from 'node:process'
import type { Machine } from './data-folder.ts'

/** A machine that may have a browser; `isProgram` says whether a path is a file that may be run. */
export interface BrowserMachine extends Machine {
  readonly isProgram: (path: string) => boolean
}

export interface AppWindow {
  readonly browser: string
  readonly url: string
  /** The window's own profile, so that it shares nothing with the person's browser. Absolute path. */
  readonly profileDir: string
}

const thisMachine: BrowserMachine = {
  platform: process.platform,
  env: process.env,
  home: homedir(),
  isProgram: isProgramHere,
}

/** An installed browser of the Chromium family, or undefined. On PATH first, then where each platform installs it. */
export function findBrowser(machine: BrowserMachine = thisMachine): string | undefined {
  return browserPlaces(machine).find(machine.isProgram)
}

/** Flags every Chromium of this program is started with; root cannot have its sandbox (in CI only). */
export function quietFlags(isRoot: boolean): readonly string[] {
  return [
    '--no-first-run',
    '--no-default-browser-check',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    ...(isRoot ? ['--no-sandbox', '--test-type'] : []),
  ]
}

/** Opens a browser window without tabs or address bar; the process ends when the window is closed. */
export function openAppWindow({ browser, url, profileDir }: AppWindow): ChildProcess {
  const flags = [`--app=${url}`, `--user-data-dir=${profileDir}`, '--window-size=1440,900']
  return spawn(browser, [...flags, ...quietFlags(process.getuid?.() === 0)], { stdio: 'ignore' })
}

function browserPlaces({ platform, env, home }: BrowserMachine): readonly string[] {
  if (platform === 'win32') return windowsPlaces(env)
  if (platform === 'darwin') return macPlaces(home)
  const onPath = (env.PATH ?? '').split(':').filter((folder) => posix.isAbsolute(folder))
  const folders = [...onPath, '/usr/bin', '/usr/local/bin', '/opt/google/chrome', '/snap/bin']
  return [
    ...linuxNames.flatMap((name) => folders.map((folder) => posix.join(folder, name))),
    ...flatpaks.map((name) => posix.join('/var/lib/flatpak/exports/bin', name)),
  ]
}

const linuxNames = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
  'brave-browser',
  'vivaldi-stable',
]
const flatpaks = ['org.chromium.Chromium', 'com.google.Chrome', 'com.microsoft.Edge']

function macPlaces(home: string): readonly string[] {
  const names = ['Google Chrome', 'Chromium', 'Microsoft Edge', 'Brave Browser', 'Vivaldi']
  return names.flatMap((name) =>
    ['/', home].map((start) => posix.join(start, 'Applications', `${name}.app`, 'Contents', 'MacOS', name)),
  )
}

function windowsPlaces(env: Machine['env']): readonly string[] {
  const folders = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA].filter(
    (folder) => folder !== undefined,
  )
  const programs = [
    ['Google', 'Chrome', 'Application', 'chrome.exe'],
    ['Microsoft', 'Edge', 'Application', 'msedge.exe'],
    ['Chromium', 'Application', 'chrome.exe'],
    ['BraveSoftware', 'Brave-Browser', 'Application', 'brave.exe'],
    ['Vivaldi', 'Application', 'vivaldi.exe'],
  ]
  return programs.flatMap((parts) => folders.map((folder) => win32.join(folder, ...parts)))
}

function isProgramHere(path: string): boolean {
  try {
    accessSync(path, constants.X_OK)
    return statSync(path).isFile()
  } catch {
    return false
  }
}
