import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

interface Locked {
  readonly version: string
  readonly integrity?: string
  readonly resolved?: string
  readonly license?: string
  readonly link?: boolean
  readonly hasInstallScript?: boolean
}

const root = new URL('../../', import.meta.url)
const read = (path: string) => JSON.parse(readFileSync(new URL(path, root), 'utf8'))
const manifest = read('package.json') as { readonly allowScripts: Readonly<Record<string, boolean>> }
const { packages } = read('package-lock.json') as { readonly packages: Readonly<Record<string, Locked>> }
const locked = Object.entries(packages).filter(([path]) => path !== '')

/** Each may be used in a program under the MIT licence; those of copyleft are used as they are, as libraries of their own. */
const ALLOWED: readonly string[] = [
  '(MIT OR CC0-1.0)',
  '(WTFPL OR MIT)',
  '0BSD',
  'Apache-2.0',
  'Apache-2.0 AND LGPL-3.0-or-later',
  'Apache-2.0 AND LGPL-3.0-or-later AND MIT',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BlueOak-1.0.0',
  'ISC',
  'LGPL-3.0',
  'LGPL-3.0-or-later',
  'MIT',
  'MIT-0',
  'MPL-2.0',
  'OFL-1.1',
  'Python-2.0',
  'Unlicense',
  'WTFPL',
  'WTFPL OR ISC',
]
/** The lock says nothing of them: read in the file LICENSE of each. */
const MIT_BY_THEIR_FILE = ['jstat', 'png-js']

/** What is wrong with one package of the lock; nothing of most. */
function faultsOf(
  path: string,
  { version, integrity, resolved, license, link, hasInstallScript }: Locked,
): string[] {
  const name = path.split('node_modules/').at(-1) ?? ''
  const isAllowed = license === undefined ? MIT_BY_THEIR_FILE.includes(name) : ALLOWED.includes(license)
  return [
    ...(/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version) ? [] : [`${name}: its version is ${version}`]),
    ...(/^sha512-[\w+/]{86}==$/.test(integrity ?? '') ? [] : [`${name}: no SHA-512 of its bytes`]),
    // An address in the lock would be asked instead of the registry that the machine is set to.
    ...(resolved === undefined ? [] : [`${name}: fetched from ${resolved}`]),
    ...(link === undefined ? [] : [`${name}: a link to a folder`]),
    ...(isAllowed ? [] : [`${name}: its licence is ${license}`]),
    ...(hasInstallScript === true && !(name in manifest.allowScripts) ? [`${name}: an install script`] : []),
  ]
}

describe('the lock of the packages', () => {
  test('names each by its bytes, from the registry alone, under an allowed licence and without scripts that nobody allowed', () => {
    expect(locked.length).toBeGreaterThan(100)
    expect(locked.flatMap(([path, entry]) => faultsOf(path, entry))).toEqual([])
  })

  test('a package that is none of this is seen', () => {
    const good = { version: '1.0.0', integrity: `sha512-${'a'.repeat(86)}==`, license: 'MIT' }
    const of = (more: Partial<Locked>) => faultsOf('node_modules/x', { ...good, ...more })
    expect(of({})).toEqual([])
    expect(of({ integrity: 'sha1-abc=' })).toEqual(['x: no SHA-512 of its bytes'])
    expect(of({ resolved: 'git+ssh://host/x.git' })).toEqual(['x: fetched from git+ssh://host/x.git'])
    expect(of({ link: true })).toEqual(['x: a link to a folder'])
    expect(of({ license: 'GPL-3.0' })).toEqual(['x: its licence is GPL-3.0'])
    expect(of({ hasInstallScript: true })).toEqual(['x: an install script'])
    expect(of({ version: 'file:../x' })).toEqual(['x: its version is file:../x'])
  })

  test('scripts run for no package that is not in it', () => {
    const names = new Set(locked.map(([path]) => path.split('node_modules/').at(-1)))
    const run = Object.entries(manifest.allowScripts).flatMap(([name, isAllowed]) =>
      isAllowed ? [name] : [],
    )
    expect(run.filter((name) => !names.has(name))).toEqual([])
  })

  test('packages without a licence in the lock have one in their folder', () => {
    for (const name of MIT_BY_THEIR_FILE)
      expect(readFileSync(new URL(`node_modules/${name}/LICENSE`, root), 'utf8')).toMatch(
        /Permission is hereby granted, free/,
      )
  })
})
