/*
 * `npm start`: the desktop window where Electron's runtime is really here, else the host under plain Node with an
 * installed browser as its window, else the address. Ends with exit code 0 when the window is closed or on Ctrl-C.
 */
import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { homedir } from 'node:os'
import { dirname, join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { logsFolder } from '../db/data-paths.ts'
import type { RunningHost } from './boot.ts'
import { findBrowser, openAppWindow } from './browser.ts'
import { defaultDataFolder, windowProfile } from './data-folder.ts'
import { endOnDefects } from './defects.ts'
import { startHost } from './host.ts'
import { beginRun } from './last-run.ts'
import { openLog } from './log-file.ts'
import { parseStartOptions, type StartOptions } from './start-options.ts'
import { holdMemory } from './hold-memory.ts'

/** A window that ends well sooner than this has handed its page to a browser that was open already. */
const handedOverMs = 3000

const argv = process.argv.slice(2)
const parsed = parseStartOptions(argv, defaultDataFolder({ ...process, home: homedir() }), process.cwd())
if (parsed.ok) {
  process.exitCode = await start(parsed.options)
} else {
  console.error(parsed.message)
  process.exitCode = 2
}

async function start(options: StartOptions): Promise<number> {
  const electron = options.window ? electronProgram() : undefined
  if (electron) {
    const code = await runElectron(electron)
    if (code !== undefined) return code
    console.error('Electron could not open the window; a browser is tried instead.')
  }
  return runOnNode(options)
}

async function runOnNode(options: StartOptions): Promise<number> {
  holdMemory()
  const stopped = new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, resolve)
  })
  const browser = options.window ? findBrowser() : undefined
  const inLog = (print: (line: string) => void) =>
    openLog({ folder: logsFolder(options.dataDir), clock: Date.now, print })
  let host: RunningHost | undefined
  endOnDefects({
    log: inLog(console.error),
    close: () => host?.close(),
    tell: console.error,
    exit: (code) => process.exit(code),
  })
  try {
    host = await startHost({ ...options, window: browser !== undefined })
  } catch (error) {
    console.error(error instanceof Error ? error.message : error)
    return 1
  }
  const run = beginRun(options.dataDir, inLog(console.log))
  if (browser) {
    console.log(`Panelwright is ready at ${host.url}`)
    await showInBrowser(browser, host, options, stopped)
  } else {
    if (options.window) console.log('No Chromium-family browser was found: open the address in a browser.')
    console.log(`Panelwright is ready at ${host.windowUrl}`)
    await stopped
  }
  await host.close()
  run.ended()
  return 0
}

/** Waits until the window is closed or the program is stopped; a window that cannot open leaves the address. */
async function showInBrowser(
  browser: string,
  host: RunningHost,
  options: StartOptions,
  stopped: Promise<void>,
): Promise<void> {
  const openedAt = performance.now()
  const window = openAppWindow({
    browser,
    url: host.windowUrl,
    profileDir: windowProfile(options.dataDir),
  })
  const end = await Promise.race([ended(window), stopped])
  if (!end) {
    window.kill()
    return
  }
  if (end.ok && performance.now() - openedAt > handedOverMs) return
  if (end.ok) {
    console.log('The window opened in a browser that was running already. Ctrl-C ends Panelwright.')
  } else {
    console.log(`${browser} could not open a window (${end.reason}): open the address in a browser.`)
    console.log(`Panelwright is ready at ${host.windowUrl}`)
  }
  await stopped
}

type Ended = { readonly ok: true } | { readonly ok: false; readonly reason: string }

function ended(child: ChildProcess): Promise<Ended> {
  return new Promise((resolve) => {
    child.on('error', (error) => resolve({ ok: false, reason: error.message }))
    child.on('exit', (code, signal) =>
      resolve(code === 0 ? { ok: true } : { ok: false, reason: signal ?? `exit code ${code}` }),
    )
  })
}

/** Electron's program if its runtime was really fetched; never asks for it. As root Electron does not start. */
function electronProgram(): string | undefined {
  if (process.getuid?.() === 0) return undefined
  try {
    const folder = dirname(createRequire(import.meta.url).resolve('electron/package.json'))
    const path = join(folder, 'dist', readFileSync(join(folder, 'path.txt'), 'utf8'))
    return existsSync(path) ? path : undefined
  } catch {
    // No package or no path.txt: nothing was fetched, which is the usual case.
    return undefined
  }
}

/** Answers the exit code, or undefined when it ended badly before its window was ready. */
async function runElectron(program: string): Promise<number | undefined> {
  const main = fileURLToPath(new URL('../dist/electron/main.js', import.meta.url))
  const child = spawn(program, [main, ...argv], { stdio: ['ignore', 'pipe', 'inherit'] })
  let isReady = false
  child.stdout.on('data', (text: Buffer) => {
    isReady ||= text.includes('Panelwright is ready')
    process.stdout.write(text)
  })
  const pass = (signal: NodeJS.Signals) => child.kill(signal)
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
  for (const signal of signals) process.on(signal, pass)
  const end = await ended(child)
  for (const signal of signals) process.off(signal, pass)
  if (end.ok) return 0
  return isReady ? 1 : undefined
}
