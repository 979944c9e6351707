/*
 * What every npm script calls. Plain JavaScript without packages, because it runs before anything is installed, on the
 * Node the machine has (20 or newer). It installs if needed, builds if stale, then hands over to the project's own
 * Node 24: better-sqlite3 ends the process without a word on Node 20, so nothing of the program is ever loaded here.
 */
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const ownNode = join(root, 'node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node')
const oldestNode = 20

/** Steps of one command, run in turn; the first that fails ends it, except in `verify`, which runs them all. */
const commands = {
  start: (args) => [needsBuild(), program('start', args)],
  test: (args) => [needsBuild(), vitest(args)],
  verify: (args) => [format(), lint(), ...types(), needsBuild(), vitest(args)],
  reports: (args) => [needsBuild(), program('reports', args)],
  carfile: (args) => [needsBuild(), program('carfile', args)],
  takeout: (args) => [needsBuild(), program('takeout', args)],
  takein: (args) => [needsBuild(), program('takein', args)],
  check: (args) => [needsBuild(), program('check', args)],
  backup: (args) => [needsBuild(), program('backup', args)],
  restore: (args) => [needsBuild(), program('restore', args)],
  bench: (args) => [needsBuild(), source('bench', 'tests/bench/main.ts', args)],
  soak: (args) => [needsBuild(), source('soak', 'tests/soak/main.ts', args)],
  pictures: (args) => [needsBuild(), source('pictures', 'tests/pictures/main.ts', args)],
  package: (args) => [freshBuild(), source('package', 'build/package.ts', args)],
}

/**
 * The child that is running now. It gets the signals, this script only waits for how it ends. After Ctrl-C in a terminal
 * it has had its own already; Windows has no other way, as a forwarded signal would end it without a goodbye there.
 */
let child
let isStopping = false
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => stop(signal))

/** npm hands a signal to a shell that dies of it without handing it on: when the shell is gone, npm was stopped. */
const shell = process.ppid
if (process.env.npm_lifecycle_event) {
  setInterval(() => {
    if (process.ppid !== shell && !isStopping) stop('SIGTERM')
  }, 250).unref()
}

process.exitCode = await main(process.argv[2], process.argv.slice(3))

/** Runs one command and answers its exit code. */
async function main(name, args) {
  const steps = Object.hasOwn(commands, name ?? '') ? commands[name](args) : undefined
  if (!steps)
    return fail(`There is no command '${name ?? ''}'. Commands: ${Object.keys(commands).join(', ')}.`)
  if (Number(process.versions.node.split('.')[0]) < oldestNode)
    return fail(`Panelwright needs Node ${oldestNode} or newer; this is Node ${process.versions.node}.`)
  const installed = await installIfNeeded()
  if (installed !== 0 || isStopping) return installed
  return name === 'verify' ? runAll(steps) : runInTurn(steps)
}

function stop(signal) {
  isStopping = true
  if (process.platform !== 'win32') child?.kill(signal)
}

async function runInTurn(steps) {
  for (const step of steps) {
    const code = await step.run()
    if (code !== 0 || isStopping) return code
  }
  return 0
}

async function runAll(steps) {
  const failed = []
  for (const step of steps) {
    console.log(`\n── ${step.name}`)
    if ((await step.run()) !== 0) failed.push(step.name)
    if (isStopping) return 130
  }
  if (failed.length > 0) return fail(`verify: not passed: ${failed.join(', ')}`)
  console.log('\nverify: all passed')
  return 0
}

// ── steps ──────────────────────────────────────────────────────────────────────────────────────────────────────────

/** A built entry of the program. */
function program(name, args) {
  return { name, run: () => runIfThere(name, join(root, 'dist', 'electron', `${name}.js`), args) }
}

/** A script of this repository that Node 24 runs from its TypeScript source. */
function source(name, path, args) {
  return { name, run: () => runIfThere(name, join(root, path), args) }
}

function runIfThere(name, script, args) {
  return existsSync(script) ? runNode([script, ...args]) : fail(`This version has no '${name}' yet.`)
}

function tool(name, path, args) {
  return { name, run: () => runNode([join(root, 'node_modules', path), ...args], { cwd: root }) }
}

function vitest(args) {
  return tool('tests', 'vitest/vitest.mjs', ['run', ...args])
}

function format() {
  return tool('format', 'oxfmt/bin/oxfmt', ['--check', '.'])
}

function lint() {
  return tool('lint', 'oxlint/bin/oxlint', ['--deny-warnings', '.'])
}

/** The root project checks everything; each layer is checked again with only the globals that it may use. */
function types() {
  return ['.', 'domain', 'db', 'electron', 'renderer', 'renderer/service-worker'].map((folder) =>
    tool(`types of ${folder}`, 'typescript/bin/tsc', ['-p', folder]),
  )
}

// ── install ────────────────────────────────────────────────────────────────────────────────────────────────────────

async function installIfNeeded() {
  const reason = whyInstall()
  if (!reason) return 0
  console.error(`Installing packages (${reason}); this takes a minute or two.`)
  const code = await runNpm(['ci', '--no-audit', '--no-fund', '--loglevel=error'])
  if (code !== 0) {
    if (isStopping) return 130
    return fail(
      `npm ci ended with code ${code}: see its message above. Check the network, then run the command again.`,
    )
  }
  const stillWrong = whyInstall()
  if (stillWrong)
    return fail(`npm ci ended well, but ${stillWrong}. Delete node_modules and run the command again.`)
  return 0
}

/** Why packages must be installed, or undefined when node_modules is what package-lock.json says. */
function whyInstall() {
  const wanted = readLock('package-lock.json')
  const present = readLock(join('node_modules', '.package-lock.json'))
  if (!present) return 'none are here yet'
  for (const [path, entry] of Object.entries(wanted ?? {})) {
    if (path === '' || entry.link) continue
    const found = present[path]
    if (found ? found.version !== entry.version : !entry.optional) return `${path} is missing or outdated`
  }
  return existsSync(ownNode) ? undefined : "the project's own Node is missing"
}

/** The `packages` of a lock file, or undefined when there is none or it cannot be read. */
function readLock(path) {
  try {
    return JSON.parse(readFileSync(join(root, path), 'utf8')).packages
  } catch {
    return undefined
  }
}

/** npm is a script: it is run by Node itself, so that no shell is needed on any platform. */
function runNpm(args) {
  const besideNode = [
    join(dirname(process.execPath), 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    join(dirname(process.execPath), '..', 'lib', 'node_modules', 'npm', 'bin', 'npm-cli.js'),
  ]
  const npm = [process.env.npm_execpath, ...besideNode].find(
    (path) => path?.endsWith('.js') && existsSync(path),
  )
  return npm ? run(process.execPath, [npm, ...args], { cwd: root }) : run('npm', args, { cwd: root })
}

// ── build ──────────────────────────────────────────────────────────────────────────────────────────────────────────

function needsBuild() {
  return { name: 'build', run: buildIfStale }
}

/** What leaves says which commit it is of, which an earlier build of the same sources need not be. */
function freshBuild() {
  return { name: 'build', run: () => build(sourceDigest()) }
}

async function buildIfStale() {
  const wanted = sourceDigest()
  return readStamp() === wanted ? 0 : build(wanted)
}

async function build(wanted) {
  console.error('Building.')
  const code = await runNode([join(root, 'build', 'bundle.ts'), wanted], { cwd: root })
  return code === 0 || isStopping ? code : fail('The build failed: see the message above.')
}

/** Digest of every file that the build reads: SHA-256 over paths and contents, in order of paths. */
function sourceDigest() {
  const digest = createHash('sha256')
  const starts = ['build', 'db', 'domain', 'electron', 'renderer', 'package.json', 'package-lock.json']
  for (const path of starts.flatMap(filesUnder)) {
    digest.update(`${path}\0`)
    digest.update(readFileSync(join(root, path)))
  }
  return digest.digest('hex')
}

function filesUnder(path) {
  if (!existsSync(join(root, path))) return []
  if (!statSync(join(root, path)).isDirectory()) return [path]
  return readdirSync(join(root, path))
    .sort()
    .flatMap((name) => filesUnder(`${path}/${name}`))
}

function readStamp() {
  try {
    return readFileSync(join(root, 'dist', 'stamp'), 'utf8')
  } catch {
    return undefined
  }
}

// ── processes ──────────────────────────────────────────────────────────────────────────────────────────────────────

/** Runs a script on the project's own Node; relative paths in `args` stay relative to where the command was given. */
function runNode(args, options = {}) {
  return run(ownNode, args, { cwd: process.env.INIT_CWD ?? process.cwd(), ...options })
}

/** Answers the exit code; a process ended by a signal answers 128 + its usual number, as shells do. */
function run(command, args, options) {
  return new Promise((resolve) => {
    child = spawn(command, args, { stdio: 'inherit', ...options })
    child.on('error', (error) => resolve(fail(`${command} could not be started: ${error.message}`)))
    child.on('exit', (code, signal) =>
      resolve(code ?? (signal === 'SIGTERM' ? 143 : signal === 'SIGINT' ? 130 : 1)),
    )
  })
}

function fail(message) {
  console.error(message)
  return 1
}
