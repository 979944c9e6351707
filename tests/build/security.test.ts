import { existsSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const root = new URL('../../', import.meta.url)
const page = readFileSync(new URL('docs/security.md', root), 'utf8')

/** Tests as the page names them: `file`: `name`. */
const named = (text: string) =>
  [...text.matchAll(/`(tests\/[^`]+\.test\.ts)`: `([^`]+)`/g)].map(([, file = '', name = '']) => ({
    file,
    name,
  }))

/** The name stands in the file as that of a test: after `test(` or `it(`, their each, or a wrapper of them. */
function isThere({ file, name }: { readonly file: string; readonly name: string }): boolean {
  const path = new URL(file, root)
  if (!existsSync(path)) return false
  const escaped = name.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')
  return new RegExp(`\\(\\s*(['"\`])${escaped}\\1,`).test(readFileSync(path, 'utf8'))
}

test('every test that docs/security.md names is there, by file and by name', () => {
  const tests = named(page)
  expect(tests.length).toBeGreaterThan(40)
  expect(tests.filter((each) => !isThere(each))).toEqual([])
})

test('a test that is not there is missed', () => {
  const file = 'tests/electron/window.test.ts'
  expect(isThere({ file, name: 'the window is shown once the host has answered' })).toBe(true)
  expect(isThere({ file, name: 'the window is shown' })).toBe(false)
  expect(isThere({ file: 'tests/electron/none.test.ts', name: 'anything' })).toBe(false)
})

test('each line of its tables of measures names a test that holds it', () => {
  const tables = page.slice(page.indexOf('## Electron'), page.indexOf('## Bad input'))
  const measures = tables.split('\n').filter((line) => /^\| (?!item|line|---)/.test(line))
  expect(measures.length).toBeGreaterThan(35)
  expect(measures.filter((line) => named(line).length === 0)).toEqual([])
})
