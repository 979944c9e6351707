import { spawn, spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import process from 'node:process'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'

const runScript = new URL('../../build/run.mjs', import.meta.url)

/*
 * A stand-in for a clone: the real run.mjs, and in the places where it looks a lock file, an npm that writes what it was
 * asked, a bundler that makes the program from one line, and this test's own Node as the project's Node.
 */
let clone: string

beforeEach(() => {
  clone = mkdtempSync(join(tmpdir(), 'panelwright-run-'))
  put('build/run.mjs', readFileSync(runScript, 'utf8'))
  put(
    'package-lock.json',
    lock({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/b': { version: '2.0.0', optional: true } }),
  )
  put(
    'npm.js',
    `
    const fs = require('node:fs')
    fs.appendFileSync('npm.log', process.argv.slice(2).join(' ') + '\\n')
    if (fs.existsSync('npm-fails')) process.exit(7)
    fs.cpSync('to-install', 'node_modules', { recursive: true, verbatimSymlinks: true })
  `,
  )
  put('to-install/.package-lock.json', lock({ 'node_modules/a': { version: '1.0.0' } }))
  mkdirSync(join(clone, 'to-install/node/bin'), { recursive: true })
  symlinkSync(process.execPath, join(clone, 'to-install/node/bin/node'))
  put(
    'build/bundle.ts',
    `
    import { appendFileSync, mkdirSync, copyFileSync, writeFileSync } from 'node:fs'
    mkdirSync('dist/electron', { recursive: true })
    copyFileSync('electron/start.ts', 'dist/electron/start.js')
    writeFileSync('dist/stamp', process.argv[2])
    appendFileSync('build.log', 'built\\n')
  `,
  )
  put('electron/start.ts', `console.log('arguments', process.argv.slice(2).join(' '))`)
})

afterEach(() => rmSync(clone, { recursive: true, force: true }))

describe('a command in a fresh clone', () => {
  test('installs, builds, then runs the program with its flags', () => {
    const { status, stdout } = run('start', '--port', '0')
    expect(stdout).toBe('arguments --port 0\n')
    expect(status).toBe(0)
    expect(read('npm.log')).toBe('ci --no-audit --no-fund --loglevel=error\n')
    expect(read('build.log')).toBe('built\n')
  })

  test('does neither again when nothing has changed', () => {
    run('start')
    const { stderr } = run('start')
    expect(stderr).toBe('')
    expect(read('npm.log').split('\n')).toHaveLength(2)
    expect(read('build.log')).toBe('built\n')
  })

  test('builds again after a source has changed', () => {
    run('start')
    put('electron/start.ts', `console.log('changed')`)
    expect(run('start').stdout).toBe('changed\n')
    expect(read('build.log')).toBe('built\nbuilt\n')
  })

  test('installs again after the lock file has moved on, and names the package', () => {
    run('start')
    put('package-lock.json', lock({ 'node_modules/a': { version: '1.1.0' } }))
    put('to-install/.package-lock.json', lock({ 'node_modules/a': { version: '1.1.0' } }))
    expect(run('start').stderr).toContain('node_modules/a is missing or outdated')
    expect(read('npm.log').split('\n')).toHaveLength(3)
  })

  test('says what to do when packages cannot be installed, and starts nothing', () => {
    put('npm-fails', '')
    const { status, stdout, stderr } = run('start')
    expect(status).toBe(1)
    expect(stdout).toBe('')
    expect(stderr).toContain('npm ci ended with code 7')
    expect(stderr).toContain('run the command again')
  })

  test('does not go on when the install leaves something out', () => {
    rmSync(join(clone, 'to-install/node'), { recursive: true })
    const { status, stderr } = run('start')
    expect(status).toBe(1)
    expect(stderr).toContain("the project's own Node is missing")
  })

  test('does not start an old program when the build fails', () => {
    run('start')
    put('electron/start.ts', 'changed')
    put('build/bundle.ts', `throw new Error('broken')`)
    const { status, stdout, stderr } = run('start')
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' })
    expect(stderr).toContain('The build failed')
  })
})

test('the exit code of the program is passed on', () => {
  put('electron/start.ts', `process.exit(5)`)
  expect(run('start').status).toBe(5)
})

test('an unknown command names those there are', () => {
  const { status, stderr } = run('strat')
  expect(status).toBe(1)
  expect(stderr).toContain("no command 'strat'")
  expect(stderr).toContain('start, test, verify')
})

test.skipIf(process.platform === 'win32').each(['SIGINT', 'SIGTERM'] as const)(
  '%s reaches the program, and a clean end is exit code 0',
  async (signal) => {
    put(
      'electron/start.ts',
      `
      setInterval(() => {}, 1000)
      process.on('${signal}', () => { console.log('ended'); process.exit(0) })
      console.log('ready')
    `,
    )
    const child = spawn(process.execPath, ['build/run.mjs', 'start'], { cwd: clone, env: environment() })
    let output = ''
    const code = new Promise((resolve) => child.on('exit', resolve))
    child.stdout.on('data', (text: Buffer) => {
      output += text.toString()
      if (text.includes('ready')) child.kill(signal)
    })
    expect(await code).toBe(0)
    expect(output).toBe('ready\nended\n')
  },
)

function run(...args: readonly string[]) {
  return spawnSync(process.execPath, ['build/run.mjs', ...args], {
    cwd: clone,
    env: environment(),
    encoding: 'utf8',
  })
}

function environment(): NodeJS.ProcessEnv {
  const { INIT_CWD: _, ...rest } = process.env
  return { ...rest, npm_execpath: join(clone, 'npm.js') }
}

function lock(packages: Readonly<Record<string, object>>): string {
  return JSON.stringify({ packages: { '': {}, ...packages } })
}

function put(path: string, text: string): void {
  mkdirSync(dirname(join(clone, path)), { recursive: true })
  writeFileSync(join(clone, path), text)
}

function read(path: string): string {
  return readFileSync(join(clone, path), 'utf8')
}
