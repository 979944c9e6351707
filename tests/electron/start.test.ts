import { type ChildProcess, spawn } from 'node:child_process'
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { runningMarkPath } from '../../db/data-paths.ts'

const start = fileURLToPath(new URL('../../electron/start.ts', import.meta.url))

let folder: string
let running: Started[]

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'panelwright-start-'))
  running = []
})
afterEach(async () => {
  for (const { child } of running) child.kill('SIGKILL')
  await Promise.all(running.map(({ ended }) => ended))
  rmSync(folder, { recursive: true, force: true })
})

describe.skipIf(process.platform === 'win32')('npm start', { timeout: 60_000 }, () => {
  test.each(['SIGINT', 'SIGTERM'] as const)(
    'without a window it prints its address and ends well on %s',
    async (signal) => {
      const program = run('--no-window')
      const url = await program.url()
      const answer = await fetch(url, { redirect: 'manual' })
      expect(answer.headers.get('set-cookie')).toContain('HttpOnly')
      expect((await fetch(new URL('/', url))).status).toBe(401)
      program.child.kill(signal)
      expect(await program.ended).toBe(0)
      await expect(fetch(url)).rejects.toThrow('fetch failed')
    },
  )

  test('a second start on the same data folder is refused with a reason', async () => {
    const first = run('--no-window')
    await first.url()
    const second = run('--no-window')
    expect(await second.ended).toBe(1)
    expect(second.errors()).toMatch(/in use|already/i)
    expect(second.errors()).not.toMatch(/\n\s+at /)
  })

  test('a start after one that was cut off says so', async () => {
    const saysCutOff = async (signal: NodeJS.Signals) => {
      const program = run('--no-window')
      await program.url()
      program.child.kill(signal)
      await program.ended
      expect(program.errors()).toBe('')
      return program.output().includes('Panelwright was cut off the last time. What was recorded is kept.')
    }
    expect(await saysCutOff('SIGKILL')).toBe(false)
    expect(await saysCutOff('SIGTERM')).toBe(true)
    expect(existsSync(runningMarkPath(join(folder, 'data')))).toBe(false)
  })

  test('a flag that is not known ends with the list of flags', async () => {
    const program = run('--no-windw')
    expect(await program.ended).toBe(2)
    expect(program.errors()).toMatch(/--no-windw[^]*--no-window/)
  })

  test('a browser window gets the address, a profile of its own, and ends the program when it is closed', async () => {
    const browser = putBrowser(
      'i=0; while [ ! -e close ] && [ $i -lt 300 ]; do sleep 0.1; i=$((i + 1)); done',
    )
    const program = run()
    await program.url()
    const flags = await browser.flags()
    expect(flags).toContainEqual(expect.stringMatching(/^--app=http:\/\/127\.0\.0\.1:/))
    expect(flags).toContain(`--user-data-dir=${join(folder, 'data', 'private', 'window')}`)
    // Longer than a window that was handed over to a running browser takes to end.
    await new Promise((resolve) => setTimeout(resolve, 3500))
    writeFileSync(join(folder, 'close'), '')
    expect(await program.ended).toBe(0)
  })

  test('a browser that cannot open a window leaves the address', async () => {
    putBrowser('exit 1')
    const program = run()
    await vi.waitFor(
      () => expect(program.output()).toContain('could not open a window (exit code 1)'),
      30_000,
    )
    expect(program.output().match(/Panelwright is ready at/g)).toHaveLength(2)
    program.child.kill('SIGINT')
    expect(await program.ended).toBe(0)
  })
})

interface Started {
  readonly child: ChildProcess
  readonly ended: Promise<number | null>
  readonly output: () => string
  readonly errors: () => string
  /** The printed address, once it is there. */
  readonly url: () => Promise<string>
}

/** Starts the program from source on the test's data folder; the only browser on PATH is the one put there. */
function run(...flags: readonly string[]): Started {
  const child = spawn(process.execPath, [start, '--data', join(folder, 'data'), '--port', '0', ...flags], {
    env: { ...process.env, PATH: `${join(folder, 'bin')}:${process.env.PATH}` },
    cwd: folder,
  })
  let output = ''
  let errors = ''
  child.stdout.on('data', (text: Buffer) => (output += text.toString()))
  child.stderr.on('data', (text: Buffer) => (errors += text.toString()))
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve))
  const url = () =>
    vi.waitFor(() => {
      const found = /Panelwright is ready at (\S+)/.exec(output)?.[1]
      if (found === undefined) throw new Error(`no address yet: ${output}${errors}`)
      return found
    }, 30_000)
  const started = { child, ended, output: () => output, errors: () => errors, url }
  running.push(started)
  return started
}

/** A browser that writes down its flags, then does what the script says. */
function putBrowser(script: string) {
  const path = join(folder, 'bin', 'chromium')
  mkdirSync(join(folder, 'bin'))
  writeFileSync(path, `#!/bin/sh\nprintf '%s\\n' "$@" > flags.part && mv flags.part flags\n${script}\n`)
  chmodSync(path, 0o755)
  const flags = () => vi.waitFor(() => readFileSync(join(folder, 'flags'), 'utf8').split('\n'), 30_000)
  return { flags }
}
