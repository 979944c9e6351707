import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { licencesText, noteFolder, readLicence, shippedFolders } from '../../build/licences.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'panelwright-licences-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

function packageWith(files: Readonly<Record<string, string>>, licence = 'MIT'): string {
  const path = join(folder, 'package')
  mkdirSync(path, { recursive: true })
  const manifest = { name: '@some/package', version: '1.2.3', license: licence }
  writeFileSync(join(path, 'package.json'), JSON.stringify(manifest))
  for (const [name, text] of Object.entries(files)) writeFileSync(join(path, name), text)
  return path
}

describe('the licence of a package', () => {
  test('is every licence and notice file in its folder', () => {
    const path = packageWith({ 'LICENSE.md': 'Take it.\r\n', NOTICE: 'Made by all.', 'readme.md': 'no' })
    expect(readLicence(path)).toEqual({
      name: '@some/package',
      version: '1.2.3',
      licence: 'MIT',
      text: 'Take it.\n\nMade by all.',
    })
  })

  test('is the text kept for it where it brings none', () => {
    const texts = join(folder, 'texts')
    mkdirSync(texts)
    writeFileSync(join(texts, '@some__package.txt'), 'Kept for it.')
    expect(readLicence(packageWith({}), texts).text).toBe('Kept for it.')
    expect(readLicence(packageWith({ LICENCE: 'Its own.' }), texts).text).toBe('Its own.')
  })

  test('that has no text at all ends the build with its name', () => {
    expect(() => readLicence(packageWith({}))).toThrow('@some/package 1.2.3 (MIT) has no licence text')
  })

  test('names the libraries that a package under the LGPL was built of', () => {
    const readme = '# x\n\n## Licensing\n\n| glib | LGPLv3 |\n\n## More\n\nno'
    expect(readLicence(packageWith({ 'README.md': readme }, 'LGPL-3.0-or-later')).text).toBe(
      '| glib | LGPLv3 |',
    )
    expect(() => readLicence(packageWith({ 'README.md': readme }))).toThrow('no licence text')
  })

  test('is that of the innermost package that a file lies in', () => {
    const folders = new Set<string>()
    noteFolder(folders, '/x/node_modules/a/node_modules/@b/c/lib/d.js')
    noteFolder(folders, '/x/domain/e.ts')
    expect([...folders]).toEqual(['/x/node_modules/a/node_modules/@b/c'])
  })
})

describe('the text of all licences', () => {
  const built = () => readFileSync(join(root, 'dist/renderer/licences.txt'), 'utf8')

  test('sets packages with one text under it together, by name', () => {
    const a = { name: 'a', version: '1.0.0', licence: 'MIT', text: 'Same.' }
    const text = licencesText(root, [{ ...a, name: 'b' }, { ...a, name: 'c', text: 'Other.' }, a])
    expect(text).toContain('a 1.0.0 (MIT)\nb 1.0.0 (MIT)\n')
    expect(text.match(/^Same\.$/gm)).toHaveLength(1)
    expect(text.indexOf('Same.')).toBeLessThan(text.indexOf('Other.'))
  })

  test('holds in the build every package that is shipped as one', () => {
    const shipped = shippedFolders(root).map((path) => readLicence(path))
    expect(shipped.length).toBeGreaterThan(20)
    const text = built()
    const without = shipped.filter((each) => !text.includes(`${each.name} ${each.version} (`))
    expect(without.map(({ name }) => name)).toEqual([])
  })

  test('holds in the build what is bundled, the fonts with it', () => {
    const text = built()
    expect(text).toMatch(/^Panelwright \(MIT\)$/m)
    expect(text).toMatch(/^react \d+\.\d+\.\d+ \(MIT\)$/m)
    expect(text).toMatch(/^hono \d+\.\d+\.\d+ \(MIT\)$/m)
    expect(text).toMatch(/^@fontsource-variable\/archivo \d+\.\d+\.\d+ \(OFL-1\.1\)$/m)
    expect(text).toMatch(/^@fontsource\/archivo \d+\.\d+\.\d+ \(OFL-1\.1\)$/m)
    expect(text).toContain('SIL OPEN FONT LICENSE Version 1.1')
    expect(text).toContain('GNU LESSER GENERAL PUBLIC LICENSE')
    expect(text).not.toMatch(/^(vite|vitest|electron-builder|typescript) \d/m)
  })

  test('needs each of the texts that are kept for packages without one', () => {
    const kept = readdirSync(join(root, 'build/licence-texts')).filter((name) => name.endsWith('.txt'))
    expect(kept.length).toBeGreaterThan(0)
    for (const file of kept) {
      const name = file.replace('.txt', '').replace('__', '/')
      const files = readdirSync(join(root, 'node_modules', name))
      expect([name, files.filter((each) => /^(licen[cs]e|copying)/i.test(each))]).toEqual([name, []])
    }
  })
})
