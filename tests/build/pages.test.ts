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

test('every command, bench and long run stands on README', () => {
  const page = read('README.md')
  const commands = Object.keys(JSON.parse(read('package.json')).scripts).map((name) => `npm ${name}`)
  const isSaid = (command: string) =>
    page.includes(command) || page.includes(command.replace('npm ', 'npm run '))
  expect(commands.filter((command) => !isSaid(command))).toEqual([])
  const row = (name: string) =>
    page.split('\n').find((line) => line.startsWith(`| \`npm run ${name} -- NAME\``)) ?? ''
  for (const [name, script] of [
    ['bench', 'tests/bench/main.ts'],
    ['soak', 'tests/soak/main.ts'],
  ] as const)
    expect(namesIn(script).filter((each) => !row(name).includes(`\`${each}\``))).toEqual([])
})

test('where a page says what was measured, it says by which command', () => {
  const sections = pages.flatMap((page) =>
    read(page)
      .split(/^## /m)
      .filter((section) => /^(What was measured|Measured|Where it stands)\n/.test(section))
      .map((section) => ({ section: `${page}: ${section.split('\n')[0]}`, text: section })),
  )
  expect(sections.length).toBeGreaterThan(2)
  const without = sections.filter(({ text }) => !/npm (run bench|run soak|test) -- \S/.test(text))
  expect(without.map(({ section }) => section)).toEqual([])
})

test('the first change that DEVELOPERS.md leads to is still to be made as it says', () => {
  const [, block = ''] = /```ts\n([^`]+)```/.exec(read('DEVELOPERS.md')) ?? []
  const lines = block.split('\n').map((line) => line.trim())
  const neighbour = read('tests/domain/rules/work-holds.test.ts')
  // All but its name, its own case, what is expected and its end stand in the test that it is put behind.
  const told = lines.filter((line) => /^(const|scene\.(repair|passTo))/.test(line))
  expect(told.length).toBe(4)
  expect(told.filter((line) => !neighbour.includes(line))).toEqual([])
  expect(read('domain/rules/work-holds.ts').match(/: 'ordered'$/gm)).toHaveLength(1)
})

test('the pages are found, with what is looked for on them', () => {
  expect(pages.length).toBeGreaterThan(9)
  expect(pages.flatMap(words).filter((word) => FOLDER.test(word)).length).toBeGreaterThan(60)
  expect(pages.flatMap((page) => matches(page, /npm run bench -- ([a-z]+)/g)).length).toBeGreaterThan(5)
  expect(namesIn('tests/bench/main.ts')).toContain('plan')
  expect(namesIn('tests/soak/main.ts')).toContain('kills')
})
