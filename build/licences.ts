import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join, resolve, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Plugin } from 'vite'

/** What a package asks to be shown with it. */
export interface PackageLicence {
  readonly name: string
  readonly version: string
  /** As its package.json has it, mostly an SPDX expression. */
  readonly licence: string
  readonly text: string
}

const LICENCE_FILE = /^(licen[cs]e|copying|notice)([.-]|$)/i
/** Texts of packages that come without one, by the name of the package, and those that several go by. */
const ownTexts = fileURLToPath(new URL('./licence-texts/', import.meta.url))

/** Notes the folder of every package that something of it is bundled from: code, style sheets, fonts. */
export function noteBundled(folders: Set<string>): Plugin {
  let root = ''
  return {
    name: 'panelwright:note-bundled',
    configResolved: (config) => {
      root = config.root
    },
    generateBundle(_options, bundle) {
      for (const file of Object.values(bundle)) {
        // Modules are named in full, what assets are made of by the way from the root.
        const sources = file.type === 'chunk' ? file.moduleIds : file.originalFileNames
        for (const source of sources) noteFolder(folders, resolve(root, source))
      }
    },
  }
}

/** Notes the package that a file belongs to, where it is one of a package. */
export function noteFolder(folders: Set<string>, file: string): void {
  const [folder] = /^.*\/node_modules\/(@[^/]+\/)?[^/]+/.exec(file.split(sep).join('/')) ?? []
  if (folder !== undefined) folders.add(folder)
}

interface LockedPackage {
  readonly dev?: boolean
  readonly devOptional?: boolean
  readonly optional?: boolean
}

/**
 * The folders of all packages that are shipped as packages: what the lock has besides the development ones, as far as it
 * is for this platform.
 *
 * @throws Error when one is missing that is not optional
 */
export function shippedFolders(root: string): readonly string[] {
  const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, LockedPackage>>
  }
  return Object.entries(packages).flatMap(([path, { dev, devOptional, optional }]) => {
    if (path === '' || dev === true || devOptional === true) return []
    if (existsSync(join(root, path, 'package.json'))) return [join(root, path)]
    if (optional === true) return []
    throw new Error(`${path} is missing: run npm ci.`)
  })
}

/**
 * Reads what a package says of its licence: every licence and notice file in its folder, or the text that is kept for it
 * here, and where it holds other libraries under the LGPL what its README says of them.
 *
 * @param texts where texts of packages without one are kept
 * @throws Error that names the package when there is no text at all
 */
export function readLicence(folder: string, texts: string = ownTexts): PackageLicence {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    readonly name: string
    readonly version: string
    readonly license?: string | { readonly type: string }
  }
  const licence = typeof license === 'object' ? license.type : (license ?? 'see its text')
  const files = readdirSync(folder).filter((file) => LICENCE_FILE.test(file))
  const kept = join(texts, `${name.replace('/', '__')}.txt`)
  const found = [
    ...files.toSorted().map((file) => join(folder, file)),
    ...(files.length === 0 && existsSync(kept) ? [kept] : []),
  ].map((path) => readFileSync(path, 'utf8'))
  const parts = [...found, ...(licence.includes('LGPL') ? heldLibraries(folder) : [])].map(tidy)
  if (parts.length === 0)
    throw new Error(`${name} ${version} (${licence}) has no licence text: put one into ${kept}.`)
  return { name, version, licence, text: parts.join('\n\n') }
}

/** The part of a README that names the libraries in a package that was built of many. */
function heldLibraries(folder: string): readonly string[] {
  const readme = join(folder, 'README.md')
  if (!existsSync(readme)) return []
  const [, part] = /^## Licensing\n([\s\S]*?)(?=^## |$(?![\s\S]))/m.exec(readFileSync(readme, 'utf8')) ?? []
  return part === undefined ? [] : [part]
}

const tidy = (text: string): string => text.replaceAll('\r\n', '\n').trim()

/**
 * The licences of everything that a build holds, as one text: the program's own, each package by name, packages with the
 * same text together, and at the end the texts that several of them only name.
 */
export function licencesText(root: string, packages: readonly PackageLicence[]): string {
  const byText = Map.groupBy(
    packages.toSorted((a, b) => compare(`${a.name} ${a.version}`, `${b.name} ${b.version}`)),
    ({ text }) => text,
  )
  const sections = [...byText].map(([text, group]) => {
    const heads = new Set(group.map(({ name, version, licence }) => `${name} ${version} (${licence})`))
    return section([...heads].join('\n'), text)
  })
  const common = readdirSync(join(ownTexts, 'common'))
    .toSorted()
    .map((file) =>
      section(file.replace('.txt', ''), tidy(readFileSync(join(ownTexts, 'common', file), 'utf8'))),
    )
  return [
    section('Panelwright (MIT)', tidy(readFileSync(join(root, 'LICENSE'), 'utf8'))),
    'Panelwright is made with the packages below. The installed program also holds Electron and Chromium, whose licences\nlie beside it as LICENSE.electron.txt and LICENSES.chromium.html.',
    ...sections,
    'Texts that packages above name without bringing them along:',
    ...common,
  ]
    .join('\n\n')
    .concat('\n')
}

const RULE = '='.repeat(80)
const section = (head: string, text: string): string => `${RULE}\n${head}\n${RULE}\n\n${text}`

/** By code points: the order of a language would differ between computers. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
