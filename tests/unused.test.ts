import { readFileSync } from 'node:fs'
import { posix } from 'node:path'
import { describe, expect, test } from 'vitest'
import { readSources, takenBy } from './support/sources.ts'

type Sources = ReadonlyMap<string, string>

const FOLDERS = ['domain', 'db', 'electron', 'renderer', 'tests', 'build']
const root = new URL('../', import.meta.url)
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8')
const sources: Sources = new Map([...readSources(FOLDERS), ['vitest.config.ts', read('vitest.config.ts')]])
const styles = readSources(['renderer'], /\.css$/)
/** Beside the sources, what names a file to start, or a package to use. */
const settings: Sources = new Map(
  ['build/electron-builder.json', 'renderer/index.html', 'DEVELOPERS.md', 'tests/fixtures/README.md'].map(
    (path) => [path, read(path)],
  ),
)

/** Taken by what no import shows: the build's alias of temporal-polyfill, and vitest's own names. */
const TAKEN_OTHERWISE = ['renderer/temporal.ts: Temporal', 'tests/support/filled-demo-folder.ts: teardown']
/** oxlint looks for it where `typeAware` is on. */
const USED_OTHERWISE = ['oxlint-tsgolint']

describe('nothing is there that nobody uses:', () => {
  test('what a file hands out is taken by another one', () => {
    expect(valuesNobodyTakes(sources)).toEqual(TAKEN_OTHERWISE)
  })

  test('a file is taken by another one, is a test, or is started by its name', () => {
    expect(filesNobodyNames(sources, settings)).toEqual([])
  })

  test('a package is imported, or named by what runs it', () => {
    const { used, declared } = packages()
    const named = new Set(
      [...readSources(['build', 'db', 'electron', 'renderer'], /\.(ts|tsx|mjs|css)$/).values()].flatMap(
        (text) =>
          [...text.matchAll(/(?<='|node_modules\/)(?:@[\w-]+\/)?[\w.-]+(?=['/])/g)].map(([name]) => name),
      ),
    )
    const isUsed = (name: string) => used.has(name) || named.has(name)
    const idle = declared.filter((name) => !isUsed(name.replace('@types/', '')))
    expect(idle).toEqual(USED_OTHERWISE)
  })

  test('a class of a style sheet stands on something', () => {
    expect(styles.size).toBeGreaterThan(20)
    expect(classesNobodyWears(styles, sources)).toEqual([])
  })
})

test('every package that is imported is declared with its version, none comes along with another one', () => {
  const { used, declared } = packages()
  expect([...used].filter((name) => !declared.includes(name))).toEqual([])
})

describe('the check of what is used', () => {
  test('sees a value, a file and a class that nobody wants', () => {
    const some: Sources = new Map([
      ['domain/a.ts', `export const one = 1\nexport const two = 2\nexport interface Three {}`],
      ['domain/b.ts', `import { one } from './a.ts'\nimport s from './b.module.css'\nuse(one, s.worn)`],
    ])
    expect(valuesNobodyTakes(some)).toEqual(['domain/a.ts: two'])
    expect(filesNobodyNames(some, new Map())).toEqual(['domain/b.ts'])
    expect(filesNobodyNames(some, new Map([['x.md', 'Run domain/b.ts.']]))).toEqual([])
    const sheets: Sources = new Map([
      ['domain/b.module.css', '.worn, .idle:hover { top: 0.5em }'],
      ['domain/all.css', '.use { top: 0 } .none > p { top: 0 }'],
    ])
    expect(classesNobodyWears(sheets, new Map([...some, ['c.tsx', `<p className="use" />`]]))).toEqual([
      'domain/b.module.css: idle',
      'domain/all.css: none',
    ])
  })
})

const placeOf = (file: string, request: string): string => posix.join(posix.dirname(file), request)

/** Values only: a type that nobody names may still be what a function answers. */
function valuesNobodyTakes(all: Sources): readonly string[] {
  const taken = new Set<string>()
  for (const [file, text] of all)
    for (const { request, names } of takenBy(file, text))
      for (const name of names) taken.add(`${placeOf(file, request)}: ${name}`)
  return [...all].flatMap(([file, text]) =>
    [...text.matchAll(/^export (?:async )?(?:function\*?|const|let|class) (\w+)/gm)]
      .map(([, name]) => `${file}: ${name}`)
      .filter((each) => !taken.has(each) && !taken.has(`${file}: *`)),
  )
}

function filesNobodyNames(all: Sources, more: Sources): readonly string[] {
  const taken = new Set(
    [...all].flatMap(([file, text]) => takenBy(file, text).map(({ request }) => placeOf(file, request))),
  )
  const named = new Set(
    [...all, ...more].flatMap(([file, text]) =>
      [...text.matchAll(/(?<=['"/])[\w.-]+\.(?:tsx?|mjs)\b/g)]
        .map(([name]) => name)
        .filter((name) => name !== posix.basename(file)),
    ),
  )
  return [...all.keys()].filter(
    (file) => !/\.(test|d|config)\.ts$/.test(file) && !taken.has(file) && !named.has(posix.basename(file)),
  )
}

function packages() {
  const { dependencies, devDependencies } = JSON.parse(read('package.json')) as Record<string, object>
  const requests = [...sources].flatMap(([file, text]) => takenBy(file, text).map(({ request }) => request))
  const used = new Set(
    requests
      .filter((request) => /^(?!node:)@?[a-z]/.test(request))
      .map((request) => request.split('/', request.startsWith('@') ? 2 : 1).join('/')),
  )
  return { used, declared: Object.keys({ ...dependencies, ...devDependencies }) }
}

/** A class of a module by `styles.name` in who imports it, any other one as a word of a text. */
function classesNobodyWears(sheets: Sources, all: Sources): readonly string[] {
  const imports = [...all].flatMap(([file, text]) =>
    [...text.matchAll(/^import (\w+) from '(\.[^']+\.module\.css)'/gm)].map(
      ([, name = '', request = '']) => ({
        sheet: placeOf(file, request),
        name,
        text,
      }),
    ),
  )
  const words = new Set(
    [...all].flatMap(([file, text]) =>
      file.startsWith('tests/') ? [] : (text.match(/(?<=['"`\s{}])[a-z][\w-]*(?=['"`\s$}])/gi) ?? []),
    ),
  )
  const isWorn = (sheet: string, name: string): boolean =>
    sheet.endsWith('.module.css')
      ? imports.some((each) => each.sheet === sheet && isTakenAs(each, name))
      : words.has(name)
  return [...sheets].flatMap(([sheet, text]) =>
    [...new Set(classesOf(text))].filter((name) => !isWorn(sheet, name)).map((name) => `${sheet}: ${name}`),
  )
}

/** By its name, or by one that is worked out. */
const isTakenAs = (by: { readonly name: string; readonly text: string }, wanted: string): boolean =>
  new RegExp(`\\b${by.name}(\\.${wanted}\\b|\\['${wanted}'\\]|\\[[^'])`).test(by.text)

/** Those of a module's own, where it is one. */
const classesOf = (text: string): readonly string[] =>
  [...text.replaceAll(/\/\*[^]*?\*\/|:global\([^)]*\)/g, '').matchAll(/\.([a-z][\w-]*)(?=[^{};]*\{)/gi)].map(
    ([, name = '']) => name,
  )
