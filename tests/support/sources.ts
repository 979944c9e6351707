import { readdirSync, readFileSync } from 'node:fs'
import { posix } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseSync } from 'vite'

const root = fileURLToPath(new URL('../..', import.meta.url))
const SCRIPT = /\.(ts|tsx|mjs)$/

/** Files below these folders whose names match, with their texts, by their paths from the root. */
export function readSources(folders: readonly string[], kind: RegExp = SCRIPT): ReadonlyMap<string, string> {
  const files = folders.flatMap((folder) =>
    readdirSync(posix.join(root, folder), { recursive: true, encoding: 'utf8' })
      .map((name) => posix.join(folder, name.replaceAll('\\', '/')))
      .filter((name) => kind.test(name)),
  )
  return new Map(files.map((file) => [file, readFileSync(posix.join(root, file), 'utf8')]))
}

/** What a file takes from another one or from a package. */
export interface Taken {
  /** As it is written: a package, or a path from the file on. */
  readonly request: string
  /** Of what the other one hands out; `*` where all of it may be used. */
  readonly names: readonly string[]
}

/** Parsing takes longest of all, and several questions are asked of the same texts. */
const known = new Map<string, readonly Taken[]>()

/** Static and dynamic imports and re-exports of a file, and the addresses of files beside it. */
export function takenBy(file: string, text: string): readonly Taken[] {
  const taken = known.get(text) ?? readTaken(file, text)
  known.set(text, taken)
  return taken
}

function readTaken(file: string, text: string): readonly Taken[] {
  const { module } = parseSync(file, text)
  const all = (pattern: RegExp): readonly Taken[] =>
    [...text.matchAll(pattern)].map(([, request = '']) => ({ request, names: ['*'] }))
  return [
    ...module.staticImports.map(({ moduleRequest, entries }) => ({
      request: moduleRequest.value,
      names: entries.map(({ importName }) => importName.name ?? '*'),
    })),
    ...module.staticExports.flatMap(({ entries }) =>
      entries.flatMap(({ moduleRequest, importName }) =>
        moduleRequest ? [{ request: moduleRequest.value, names: [importName.name ?? '*'] }] : [],
      ),
    ),
    ...all(/\bimport\(\s*['"]([^'"]+)['"]/g),
    ...all(/\bnew URL\(\s*['"](\.[^'"]+)['"],\s*import\.meta\.url/g),
  ]
}
