/*
 * `npm run package`: the installers of the system that it runs on, in out/, with their checksums. What follows the command
 * goes to electron-builder. Without a network there is no Electron runtime: then the files of the program are put together
 * all the same, so that everything but the runtime is shown to be right.
 */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { stage } from './stage.ts'

const INSTALLER = /\.(exe|dmg|AppImage|deb)$/

const root = fileURLToPath(new URL('..', import.meta.url))
const out = join(root, 'out')
const given = process.argv.slice(2)

rmSync(out, { recursive: true, force: true })
const { status } = spawnSync(
  process.execPath,
  [
    join(root, 'node_modules/electron-builder/cli.js'),
    '--config',
    'build/electron-builder.json',
    '--publish',
    'never',
    ...(given.length > 0 ? given : usualTargets()),
  ],
  { cwd: root, stdio: 'inherit' },
)
if (status === 0) writeChecksums()
else await stageInstead()
process.exitCode = status ?? 1

/** A Mac has the native packages of its own processor only; elsewhere the configuration says all. */
function usualTargets(): readonly string[] {
  return process.platform === 'darwin' ? ['--mac', 'dmg', `--${process.arch}`] : []
}

/** As `sha256sum --check` and `shasum --check` read them. */
function writeChecksums(): void {
  const lines = installers().map((name) => {
    const digest = createHash('sha256').update(readFileSync(join(out, name)))
    return `${digest.digest('hex')}  ${name}\n`
  })
  writeFileSync(join(out, `SHA256SUMS-${process.platform}-${process.arch}.txt`), lines.join(''))
  console.log(`\nIn ${out}:\n${lines.join('')}`)
}

function installers(): readonly string[] {
  return existsSync(out) ? readdirSync(out).filter((name) => INSTALLER.test(name)) : []
}

async function stageInstead(): Promise<void> {
  const made = installers()
  console.error(`
${made.length === 0 ? 'No installer was made' : `Made before it ended: ${made.join(', ')}`}. See above for what electron-builder said.
An installer takes what is not among the packages here and comes from the network: the Electron runtime
${electronVersion()} for ${process.platform}-${process.arch}, and electron-builder's tools for its kind (NSIS, dmg, AppImage, deb).
With a network, run the command again.`)
  if (process.platform !== 'linux') return
  const { app } = await stage(root, join(out, 'staged'))
  console.error(
    `The files of the program are put together all the same, as an installer would hold them: ${app}`,
  )
}

function electronVersion(): string {
  return (
    JSON.parse(readFileSync(join(root, 'node_modules/electron/package.json'), 'utf8')) as { version: string }
  ).version
}
