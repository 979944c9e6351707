import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { AppInfo } from 'app-builder-lib'
import { validateConfiguration } from 'app-builder-lib/out/util/config/config.js'
import { DebugLogger } from 'builder-util'
import { expect, onTestFinished, test } from 'vitest'
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

test('a .deb has the address and the name that electron-builder refuses to make one without', async () => {
  // In a source archive no repository tells an address.
  const info = { metadata: manifest, repositoryInfo: Promise.resolve(null) }
  const url = await AppInfo.prototype.computePackageUrl.call({ info, notNullDevMetadata: {} } as never)
  expect(url).toMatch(/^https:\/\//)
  expect(configuration.linux.maintainer).toMatch(/\S/)
})

test('on a Mac the program starts although nobody has signed it, and is let at the camera where somebody has', () => {
  const { mac, electronFuses } = configuration
  // Setting the fuses breaks the seal that Apple's processors ask for of every program; this makes it anew.
  expect(electronFuses.resetAdHocDarwinSignature).toBe(true)
  expect(mac.extendInfo.NSCameraUsageDescription).toMatch(/camera/)
  expect(mac.hardenedRuntime).toBe(true)
  const granted = readFileSync(new URL(mac.entitlements, root), 'utf8').matchAll(
    /<key>com\.apple\.security\.(.+)<\/key>\s*<true\/>/g,
  )
  expect([...granted].map(([, right]) => right)).toEqual([
    'cs.allow-jit',
    'cs.allow-unsigned-executable-memory',
    'cs.disable-library-validation',
    'device.camera',
  ])
})

test('an installer is refused where the native packages are those of another processor', async () => {
  const { default: afterPack } = (await import(new URL(configuration.afterPack, root).href)) as {
    readonly default: (packed: object) => void
  }
  const resources = mkdtempSync(join(tmpdir(), 'panelwright-packed-'))
  onTestFinished(() => rmSync(resources, { recursive: true }))
  const modules = join(resources, 'app.asar.unpacked/node_modules')
  for (const folder of ['better-sqlite3/prebuilds', '@img/sharp-darwin-arm64/lib'])
    mkdirSync(join(modules, folder), { recursive: true })
  writeFileSync(join(modules, 'better-sqlite3/prebuilds/darwin-arm64.node'), '')
  const packed = (arch: number) =>
    afterPack({
      appOutDir: resources,
      electronPlatformName: 'darwin',
      arch,
      packager: { getResourcesDir: () => resources },
    })
  const [x64, arm64] = [1, 3]
  expect(() => packed(arm64)).not.toThrow()
  expect(() => packed(x64)).toThrow(
    'The packages for darwin-x64 are not all here (better-sqlite3/prebuilds/darwin-x64.node, @img/sharp-darwin-x64/)',
  )
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
