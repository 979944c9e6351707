import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { BuiltFrom } from '../domain/program-version.ts'

/** What a build is made of besides its packages, which the lock names. */
const SOURCES = ['build', 'db', 'domain', 'electron', 'renderer', 'package.json', 'package-lock.json']

/**
 * What a build of this tree is made from. The commit is Git's; in a source archive it is what Git wrote into
 * build/commit.txt as it made the archive; else it is not known.
 *
 * @param root the top of the tree
 */
export function builtFrom(root: string): BuiltFrom {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    readonly version: string
  }
  const lock = createHash('sha256').update(readFileSync(join(root, 'package-lock.json')))
  return { version, commit: commitOf(root), lock: lock.digest('hex') }
}

function commitOf(root: string): string {
  // Asked only of a repository of its own: an archive may lie unpacked in another one.
  if (!existsSync(join(root, '.git'))) return archivedCommit(root)
  try {
    const commit = git(root, 'rev-parse', 'HEAD')
    const isChanged = git(root, 'status', '--porcelain', '--', ...SOURCES) !== ''
    return isChanged ? `${commit} with changes` : commit
  } catch {
    // A repository without Git installed.
    return 'unknown'
  }
}

function archivedCommit(root: string): string {
  const path = join(root, 'build', 'commit.txt')
  const text = existsSync(path) ? readFileSync(path, 'utf8').trim() : ''
  return /^[0-9a-f]{40,64}$/.test(text) ? text : 'unknown'
}

function git(root: string, ...args: readonly string[]): string {
  return execFileSync('git', args, {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  }).trim()
}
