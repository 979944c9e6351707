import { globSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))
const read = (path: string): string => readFileSync(join(root, path), 'utf8')
const isThere = (path: string): boolean => globSync(path, { cwd: root }).length > 0

const pages = globSync(['README.md', 'DEVELOPERS.md', 'docs/*.md', 'tests/fixtures/*.md'], { cwd: root })
const FOLDER = /^(domain|db|electron|renderer|tests|build|docs|\.github)\//

/** What stands on a page as code, in or out of a block, by words. */
const words = (page: string): readonly string[] =>
  [...read(page).matchAll(/`+([^`]+)`+/g)].flatMap(([, code = '']) => code.split(/[\s:,()]+/))

const matches = (page: string, pattern: RegExp): readonly string[] =>
  [...read(page).matchAll(pattern)].map(([, name = '']) => name)

/** Of a script that loads what it is asked for by its name. */
const namesIn = (script: string): readonly string[] =>
  [...read(script).matchAll(/^ {2}(\w+): async/gm)].map(([, name = '']) => name)

test.each(pages)('%s names no file or folder that is not there', (page) => {
  const named = words(page).filter((word) => FOLDER.test(word))
  const linked = matches(page, /\]\(([^)#:]+)\)/g).map((path) => join(dirname(page), path))
  expect([...named, ...linked].filter((path) => !isThere(path))).toEqual([])
})

test.each(pages)('%s names no command that there is none of', (page) => {
  const { scripts } = JSON.parse(read('package.json')) as {
    readonly scripts: Readonly<Record<string, string>>
  }
  expect(matches(page, /npm run (\w+)/g).filter((name) => !(name in scripts))).toEqual([])
  const benches = namesIn('tests/bench/main.ts')
  expect(matches(page, /npm run bench -- ([a-z]+)/g).filter((name) => !benches.includes(name))).toEqual([])
  const runs = namesIn('tests/soak/main.ts')
  expect(matches(page, /npm run soak -- ([a-z]+)/g).filter((name) => !runs.includes(name))).toEqual([])
})

test('the pages are found, with what is looked for on them', () => {
  expect(pages.length).toBeGreaterThan(9)
  expect(pages.flatMap(words).filter((word) => FOLDER.test(word)).length).toBeGreaterThan(60)
  expect(pages.flatMap((page) => matches(page, /npm run bench -- ([a-z]+)/g)).length).toBeGreaterThan(5)
  expect(namesIn('tests/bench/main.ts')).toContain('plan')
  expect(namesIn('tests/soak/main.ts')).toContain('kills')
})
