import { execFileSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createHash } from 'node:crypto'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { builtFrom } from '../../build/built-from.ts'
import { versionWords } from '../../domain/program-version.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

let folder: string
let tree: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'panelwright-built-from-'))
  tree = join(folder, 'tree')
  mkdirSync(join(tree, 'build'), { recursive: true })
  for (const file of ['package.json', 'package-lock.json', '.gitattributes', 'build/commit.txt'])
    cpSync(join(root, file), join(tree, file))
})
afterEach(() => rmSync(folder, { recursive: true }))

function git(...args: readonly string[]): string {
  const who = ['-c', 'user.name=x', '-c', 'user.email=x@example.org', '-c', 'core.hooksPath=/dev/null']
  return execFileSync('git', [...who, ...args], { cwd: tree, encoding: 'utf8', stdio: 'pipe' }).trim()
}

function commit(): string {
  git('init', '--quiet')
  git('add', '--all')
  git('commit', '--quiet', '--message', 'x')
  return git('rev-parse', 'HEAD')
}

describe('what a build was made from', () => {
  test('is version, commit and the digest of the lock', () => {
    const lock = createHash('sha256')
      .update(readFileSync(join(root, 'package-lock.json')))
      .digest('hex')
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
    const hash = commit()
    expect(builtFrom(tree)).toEqual({ version, commit: hash, lock })
  })

  test('says where files of it differ from the commit, whether known to Git or not', () => {
    const hash = commit()
    mkdirSync(join(tree, 'docs'))
    writeFileSync(join(tree, 'docs/x.md'), 'not built from')
    expect(builtFrom(tree).commit).toBe(hash)
    writeFileSync(join(tree, 'build/new.ts'), '')
    expect(builtFrom(tree).commit).toBe(`${hash} with changes`)
  })

  test('is told in a source archive too, wherever that is unpacked', () => {
    const hash = commit()
    git('archive', '--format=tar', '--output=archive.tar', 'HEAD')
    const unpacked = join(tree, 'unpacked')
    mkdirSync(unpacked)
    execFileSync('tar', ['-xf', '../archive.tar'], { cwd: unpacked })
    expect(builtFrom(unpacked).commit).toBe(hash)
  })

  test('is an unknown commit where nothing tells it', () => {
    expect(builtFrom(tree).commit).toBe('unknown')
  })
})

test('the version is said in words that fit where they are kept', () => {
  const hash = '3f2a91c04d11aa5b0c7e1d2f3a4b5c6d7e8f9012'
  const of = (commit: string) => versionWords({ version: '0.1.0', commit, lock: '' })
  expect(of(hash)).toBe('0.1.0 (3f2a91c04d11)')
  expect(of(`${hash} with changes`)).toBe('0.1.0 (3f2a91c04d11+)')
  expect(of('unknown')).toBe('0.1.0 (unknown)')
})

test('a second build of the same tree gives the same bytes', () => {
  const again = join(folder, 'dist')
  execFileSync(process.execPath, [join(root, 'build/bundle.ts'), 'again', again], {
    cwd: root,
    stdio: 'pipe',
  })
  const first = digests(join(root, 'dist'))
  const second = digests(again)
  // Where somebody has committed since the first one, only what tells so differs.
  for (const all of [first, second]) all.delete('electron/built-from.json')
  expect(second.size).toBeGreaterThan(100)
  expect(Object.fromEntries(second)).toEqual(Object.fromEntries(first))
})

/** SHA-256 of each file of the two folders of a build. */
function digests(dist: string): Map<string, string> {
  return new Map(
    ['electron', 'renderer'].flatMap((part) =>
      readdirSync(join(dist, part), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name))
        .map((file) => [
          file.slice(dist.length + 1),
          createHash('sha256').update(readFileSync(file)).digest('hex'),
        ]),
    ),
  )
}
