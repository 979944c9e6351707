import { posix } from 'node:path'
import { parseSync } from 'vite'
import { describe, expect, test } from 'vitest'
import { readSources } from './support/sources.ts'

/** What a folder may import: folders of this repository, folders of which only types, and packages (`x/*`: all of x). */
interface Layer {
  readonly folders: readonly string[]
  readonly typesOf: readonly string[]
  readonly packages: readonly string[]
}

/** The longest prefix of a file's path decides its layer. DEVELOPERS.md shows the same table. */
const layers: Readonly<Record<string, Layer>> = {
  domain: { folders: ['domain'], typesOf: [], packages: ['zod', 'canonicalize', 'temporal-polyfill'] },
  db: { folders: ['db', 'domain'], typesOf: [], packages: ['node:*', 'better-sqlite3', 'drizzle-orm'] },
  'db/photos': {
    folders: ['db', 'domain'],
    typesOf: [],
    packages: ['node:*', 'sharp', 'exifr', 'heic-decode'],
  },
  'db/demo/photos': { folders: ['db', 'domain'], typesOf: [], packages: ['node:*', 'sharp'] },
  'electron/api': {
    folders: ['electron/api', 'db', 'domain'],
    typesOf: [],
    packages: ['hono', '@trpc/server', 'zod'],
  },
  electron: {
    folders: ['electron', 'db', 'domain'],
    typesOf: [],
    packages: [
      'node:*',
      'electron',
      '@hono/node-server',
      'sharp',
      'exifr',
      'heic-decode',
      'pdfkit',
      'nodemailer',
      'ical-generator',
      'papaparse',
      'yazl',
      'yauzl',
      '@peculiar/x509',
      'reflect-metadata',
    ],
  },
  renderer: {
    folders: ['renderer', 'domain'],
    typesOf: ['electron/api'],
    packages: [
      'react',
      'react-dom',
      'react-aria-components',
      'react-hook-form',
      '@hookform/resolvers',
      '@tanstack/*',
      '@trpc/client',
      '@trpc/tanstack-react-query',
      '@fontsource/*',
      '@fontsource-variable/*',
      'idb',
      'qrcode',
      'temporal-polyfill',
      'zod',
    ],
  },
}

/** Folders of renderer/ that every screen may use; the other ones are screens and do not know each other. */
const sharedByScreens = ['parts', 'look', 'outbox', 'keys', 'find', 'help']
const longestFile = 300

describe('the layers', () => {
  const sources = readSources(['domain', 'db', 'electron', 'renderer', 'tests', 'build'])
  const imports = [...sources].flatMap(([file, text]) => importsOf(file, text))

  test.each(Object.keys(layers))('%s has files, so that this check cannot pass empty', (layer) => {
    expect([...sources.keys()].filter((file) => layerOf(file) === layer)).not.toEqual([])
  })

  test('each file imports only what its layer may', () => {
    expect(imports.flatMap(layerBreach)).toEqual([])
  })

  test('screens do not import each other', () => {
    expect(imports.flatMap(screenBreach)).toEqual([])
  })

  test('no import goes round in a circle', () => {
    expect(circles(imports)).toEqual([])
  })

  test(`a file over ${longestFile} lines says why at its top`, () => {
    expect([...sources].flatMap(([file, text]) => lengthBreach(file, text))).toEqual([])
  })

  test('the domain reads no clock and draws no lots', () => {
    expect([...sources].flatMap(([file, text]) => purityBreach(file, text))).toEqual([])
  })
})

describe('the check of the layers', () => {
  const breaches = (file: string, text: string) => importsOf(file, text).flatMap(layerBreach)

  test.each([
    ['domain/a.ts', `import { readFileSync } from 'node:fs'`],
    ['domain/a.ts', `export * from '../db/b.ts'`],
    ['domain/a.ts', `const b = await import('../electron/b.ts')`],
    ['domain/a.ts', `type B = import('../electron/b.ts').B`],
    ['db/a.ts', `import type { B } from '../electron/api/b.ts'`],
    ['electron/api/a.ts', `import { b } from '../b.ts'`],
    ['electron/api/a.ts', `import sharp from 'sharp'`],
    ['renderer/a.ts', `import { type B, c } from '../electron/api/b.ts'`],
    ['renderer/a.ts', `import { type B } from '../electron/api/b.ts'`],
    ['renderer/a.ts', `import '../db/b.ts'`],
    ['renderer/a.ts', `import '../tests/b.ts'`],
  ])('sees that %s may not say %s', (file, text) => {
    expect(breaches(file, text)).toHaveLength(1)
  })

  test.each([
    ['domain/plan/a.ts', `import { z } from 'zod'; export { b } from '../time/b.ts'`],
    ['electron/a.ts', `import { handler } from './api/b.ts'; import { join } from 'node:path'`],
    ['electron/api/a.ts', `import { initTRPC } from '@trpc/server'; import { Hono } from 'hono/tiny'`],
    ['renderer/a.tsx', `import type { Api } from '../electron/api/b.ts'; export const c = <p />`],
    ['renderer/a.ts', `export type { B, C } from '../electron/api/b.ts'`],
  ])('lets %s say %s', (file, text) => {
    expect(breaches(file, text)).toEqual([])
  })

  test.each(['const now = new Date( )', 'Date.now()', 'performance.now()', 'Math.random() < 0.5'])(
    'sees that the domain may not say %s',
    (text) => {
      expect(purityBreach('domain/a.ts', text)).toEqual(['domain/a.ts'])
      expect(purityBreach('db/a.ts', text)).toEqual([])
    },
  )

  test('sees one screen importing another, but not its shared parts', () => {
    const text = `import '../floor/a.ts'; import '../parts/b.ts'; import './c.ts'; import '../format.ts'`
    expect(importsOf('renderer/repair/a.ts', text).flatMap(screenBreach)).toHaveLength(1)
  })

  test('sees a circle through three files, whole', () => {
    const files = {
      'domain/a.ts': './b.ts',
      'domain/b.ts': './c.ts',
      'domain/c.ts': './a.ts',
      'domain/d.ts': './a.ts',
    }
    const imports = Object.entries(files).flatMap(([file, to]) => importsOf(file, `import '${to}'`))
    expect(circles(imports)).toEqual(['domain/a.ts → domain/b.ts → domain/c.ts → domain/a.ts'])
  })

  test('asks a long file for its reason', () => {
    const long = 'x()\n'.repeat(longestFile + 1)
    expect(lengthBreach('domain/a.ts', long)).toHaveLength(1)
    expect(lengthBreach('domain/a.ts', `// Over 300 lines because it is a table.\n${long}`)).toEqual([])
  })
})

interface Import {
  readonly file: string
  /** Path from the root, or the package's specifier. */
  readonly target: string
  readonly isLocal: boolean
  readonly isTypeOnly: boolean
}

/** Static and dynamic imports, re-exports and type queries. A CSS file is an import like any other. */
function importsOf(file: string, text: string): readonly Import[] {
  const { module, errors } = parseSync(file, text)
  if (errors.length > 0) throw new Error(`${file} cannot be parsed: ${errors[0]?.message}`)
  // Under verbatimModuleSyntax only the statement's own `type` drops the import; marked names leave an empty one.
  const isType = (start: number) => /^(import|export)\s+type\b/.test(text.slice(start, start + 20))
  const found = [
    ...module.staticImports.map(({ moduleRequest, start }) => [moduleRequest.value, isType(start)] as const),
    ...module.staticExports.flatMap(({ entries, start }) =>
      entries.flatMap(({ moduleRequest }) =>
        moduleRequest ? [[moduleRequest.value, isType(start)] as const] : [],
      ),
    ),
    ...[...text.matchAll(/\bimport\(\s*['"]([^'"]+)['"]/g)].map((match) => [match[1]!, false] as const),
  ]
  return found.map(([request, isTypeOnly]) => {
    const isLocal = request.startsWith('.')
    const target = isLocal ? posix.join(posix.dirname(file), request) : request
    return { file, target, isLocal, isTypeOnly }
  })
}

function layerOf(file: string): string | undefined {
  return Object.keys(layers)
    .filter((prefix) => file.startsWith(`${prefix}/`))
    .sort((a, b) => b.length - a.length)[0]
}

function layerBreach(each: Import): readonly string[] {
  const name = layerOf(each.file)
  const layer = name === undefined ? undefined : layers[name]
  if (!layer) return []
  const isIn = (folders: readonly string[]) => folders.some((folder) => each.target.startsWith(`${folder}/`))
  const isAllowed = each.isLocal
    ? isIn(layer.folders) || (each.isTypeOnly && isIn(layer.typesOf))
    : layer.packages.some((allowed) => isOfPackage(each.target, allowed))
  return isAllowed ? [] : [`${each.file} (${name}) may not import ${each.target}`]
}

function isOfPackage(specifier: string, allowed: string): boolean {
  if (allowed.endsWith('*')) return specifier.startsWith(allowed.slice(0, -1))
  return specifier === allowed || specifier.startsWith(`${allowed}/`)
}

function screenBreach({ file, target }: Import): readonly string[] {
  const from = screenOf(file)
  const to = screenOf(target)
  if (from === undefined || to === undefined || from === to) return []
  return [`${file} may not import ${target}: move what both need to renderer/parts`]
}

/** The screen folder of a file, or undefined for what is shared and for the frame that holds the screens. */
function screenOf(file: string): string | undefined {
  const screen = /^renderer\/([^/]+)\//.exec(file)?.[1]
  return screen === undefined || sharedByScreens.includes(screen) ? undefined : screen
}

/** Each circle once, from its first file in order of names. Depth first; a file that is done is not entered again. */
function circles(imports: readonly Import[]): readonly string[] {
  const targets = Map.groupBy(
    imports.filter((each) => each.isLocal),
    (each) => each.file,
  )
  const found = new Set<string>()
  const done = new Set<string>()
  const visit = (file: string, path: readonly string[]): void => {
    const start = path.indexOf(file)
    if (start >= 0) return void found.add(named(path.slice(start)))
    if (done.has(file)) return
    for (const { target } of targets.get(file) ?? []) visit(target, [...path, file])
    done.add(file)
  }
  for (const file of [...targets.keys()].sort()) visit(file, [])
  return [...found]
}

function named(circle: readonly string[]): string {
  const first = circle.indexOf([...circle].sort()[0]!)
  const turned = [...circle.slice(first), ...circle.slice(0, first)]
  return [...turned, turned[0]].join(' → ')
}

/** What its result would then hang on is an argument of the domain's functions. */
const IMPURE = /\bnew Date\(\s*\)|\bDate\.now\(|\bperformance\.now\(|\bMath\.random\(/

const purityBreach = (file: string, text: string): readonly string[] =>
  file.startsWith('domain/') && IMPURE.test(text) ? [file] : []

function lengthBreach(file: string, text: string): readonly string[] {
  const lines = text.split('\n')
  const saysWhy = /Over 300 lines because/i.test(lines.slice(0, 15).join('\n'))
  return lines.length - 1 > longestFile && !saysWhy
    ? [`${file} has ${lines.length - 1} lines and does not say at its top: 'Over 300 lines because …'`]
    : []
}
