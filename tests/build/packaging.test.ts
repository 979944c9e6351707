import { existsSync, readFileSync } from 'node:fs'
import { DebugLogger } from 'builder-util'
import { validateConfiguration } from 'app-builder-lib/out/util/config/config.js'
import { expect, test } from 'vitest'
import { CAR_FILE_ENDING, CAR_FILE_TYPE } from '../../domain/report/car-file-name.ts'

const root = new URL('../../', import.meta.url)
const configuration = readJson('build/electron-builder.json')
const manifest = readJson('package.json')
const lock = readJson('package-lock.json')

test('the installers have a configuration that electron-builder accepts', async () => {
  await expect(validateConfiguration(configuration, new DebugLogger(false))).resolves.toBeUndefined()
})

test('a mistake in the configuration is seen by the same check', async () => {
  const broken = { ...configuration, appIdd: 'x' }
  await expect(validateConfiguration(broken, new DebugLogger(false))).rejects.toThrow('appIdd')
})

test('each system gets the installers that it is used to, with an icon of its own kind', () => {
  const { linux, mac, win } = configuration
  expect({ linux: linux.target, mac: mac.target, win: win.target }).toEqual({
    linux: ['AppImage', 'deb'],
    mac: [{ target: 'dmg', arch: ['arm64', 'x64'] }],
    win: [{ target: 'nsis', arch: ['x64'] }],
  })
  expect([linux.icon, mac.icon, win.icon]).toEqual(['build/icons', 'build/icon.icns', 'build/icon.ico'])
  for (const { icon } of [linux, mac, win]) expect(existsSync(new URL(icon, root)), icon).toBe(true)
})

test('files of cars open in the program, and other archives do not', () => {
  const endings = configuration.fileAssociations.map(({ ext }: { readonly ext: string }) => `.${ext}`)
  expect(endings).toEqual([CAR_FILE_ENDING])
  expect(configuration.fileAssociations[0].mimeType).toBe(CAR_FILE_TYPE)
})

test('only what is not bundled is shipped as a package', () => {
  expect(Object.keys(manifest.dependencies).sort()).toEqual([
    'better-sqlite3',
    'heic-decode',
    'pdfkit',
    'sharp',
  ])
})

test('every package is pinned to one version', () => {
  const versions = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })
  expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(String(version)))).toEqual([])
})

test('every install script of a package is allowed or refused by name', () => {
  const scripted = Object.entries<{ hasInstallScript?: boolean }>(lock.packages)
    .filter(([, entry]) => entry.hasInstallScript)
    .map(([path]) => path.split('node_modules/').at(-1)!)
  expect(scripted.filter((name) => !(name in manifest.allowScripts))).toEqual([])
  expect(manifest.allowScripts.node).toBe(true)
})

test('the desktop program starts at the bundled main file', () => {
  expect(manifest.main).toBe('dist/electron/main.js')
  expect(existsSync(new URL('electron/main.ts', root))).toBe(true)
})

function readJson(path: string) {
  return JSON.parse(readFileSync(new URL(path, root), 'utf8'))
}
