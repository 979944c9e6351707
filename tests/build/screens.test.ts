import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gunzipSync, gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { SCREEN_LINKS } from '../../build/screen-links.ts'

/*
 * Read from the built screens: the scripts that run tests build first. Counts of bytes; how long screens take is the bench's
 * business (docs/speed.md).
 */
const built = fileURLToPath(new URL('../../dist/renderer/', import.meta.url))
const assets = join(built, 'assets')
const source = fileURLToPath(new URL('../../renderer/', import.meta.url))

const scripts = new Map(
  readdirSync(assets)
    .filter((name) => name.endsWith('.js'))
    .map((name) => [name, readFileSync(join(assets, name), 'utf8')] as const),
)

/** What a script imports before it runs; what it may fetch later is a call, `import(`. */
const importsOf = (name: string): readonly string[] =>
  [...(scripts.get(name) ?? '').matchAll(/(?:\bfrom|\bimport)\s*["'`]\.\/([\w.-]+\.js)["'`]/g)].map(
    ([, file = '']) => file,
  )

/** These scripts with all that they import, in turn. */
function withImports(...names: readonly string[]): ReadonlySet<string> {
  const found = new Set<string>()
  const take = (name: string): void => {
    if (found.has(name)) return
    found.add(name)
    importsOf(name).forEach(take)
  }
  names.forEach(take)
  return found
}

const page = readFileSync(join(built, 'index.html'), 'utf8')
const entry = /<script type="module"[^>]*src="\/assets\/([\w.-]+)"/.exec(page)?.[1] ?? ''

/** The script that a screen's source file became, and its styles. */
function chunkOf(screen: string): readonly string[] {
  const isOf = (name: string) => name.startsWith(`${screen}-`)
  const [script, ...others] = [...scripts.keys()].filter(isOf)
  if (script === undefined || others.length > 0)
    throw new Error(`There is no one script of ${screen}: ${[script, ...others].join(', ')}`)
  return [script, ...readdirSync(assets).filter((name) => isOf(name) && name.endsWith('.css'))]
}

/** Of a first visit to a screen, in kB of 1,000 bytes, gzipped: the page, its scripts and its styles. */
function initialKb(screen: string): number {
  const [script = '', ...styles] = chunkOf(screen)
  const ofPage = [...page.matchAll(/href="\/assets\/([\w.-]+\.css)"/g)].map(([, name = '']) => name)
  const files = [...withImports(entry, script), ...ofPage, ...styles]
  const sizes = [Buffer.from(page), ...files.map((name) => readFileSync(join(assets, name)))].map(
    (bytes) => gzipSync(bytes).length,
  )
  return sizes.reduce((sum, size) => sum + size, 0) / 1_000
}

const screens = readdirSync(source, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('-screen.tsx'))
  .map((path) => (path.split(/[\\/]/).at(-1) ?? '').replace('.tsx', ''))

describe('the built screens', () => {
  test.each(['shop-floor-screen', 'day-sheet-screen'])(
    'take less than 250 kB before the %s is there',
    (screen) => {
      const kb = initialKb(screen)
      // Less than React alone would mean that the imports are read wrongly.
      expect(kb).toBeGreaterThan(100)
      expect(kb).toBeLessThan(250)
    },
  )

  test('are each a script of their own, which none of the others needs', () => {
    expect(screens.length).toBeGreaterThan(10)
    const own = screens.map((screen) => chunkOf(screen)[0] ?? '')
    const needed = own.map((script) => withImports(entry, script))
    const together = own.filter(
      (script, index) => needed.filter((files, other) => other !== index && files.has(script)).length > 0,
    )
    expect(together).toEqual([])
    expect(own.filter((script) => withImports(entry).has(script))).toEqual([])
  })

  test('have links for their pages, to all that their scripts import beyond the first one and to their styles', () => {
    const links = JSON.parse(readFileSync(join(built, SCREEN_LINKS), 'utf8')) as Record<string, string>
    expect(
      Object.keys(links)
        .map((name) => `${name}-screen`)
        .toSorted(),
    ).toEqual(screens.toSorted())
    const first = withImports(entry)
    for (const screen of screens) {
      const [script = '', ...styles] = chunkOf(screen)
      const named = (links[screen.replace(/-screen$/, '')] ?? '').matchAll(/href="\/assets\/([\w.-]+)"/g)
      const names = [...named].map(([, name = '']) => name)
      const scripts = [...withImports(script)].filter((name) => !first.has(name))
      expect(names.filter((name) => name.endsWith('.js')).toSorted(), screen).toEqual(scripts.toSorted())
      expect(names, screen).toEqual(expect.arrayContaining(styles))
    }
  })

  test('do without sheets, menus and the polyfill of times until these are asked for', () => {
    const initial = [...withImports(entry)].join(' ')
    expect(initial).not.toMatch(/dialog-sheet|open-menu|implementation/)
    expect([...scripts.keys()].join(' ')).toMatch(/dialog-sheet.*implementation.*open-menu/)
  })

  test('lie beside compressed copies that say the same', () => {
    for (const [name, text] of scripts)
      expect(gunzipSync(readFileSync(join(assets, `${name}.gz`))).toString(), name).toBe(text)
  })
})
