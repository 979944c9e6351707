import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const root = fileURLToPath(new URL('../../', import.meta.url))

/** Every source file of a folder with its text. */
function sources(folder: string): readonly (readonly [path: string, text: string])[] {
  const names = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
  return names
    .filter((name) => /\.(ts|tsx|html)$/.test(name))
    .map((name) => [`${folder}/${name}`, readFileSync(join(root, folder, name), 'utf8')] as const)
}

const filesWith = (folder: string, pattern: RegExp): readonly string[] =>
  sources(folder).flatMap(([path, text]) => (pattern.test(text) ? [path] : []))

test('nothing of Electron reaches the page: no messages between them, no bridge, no programs opened, no other protocols', () => {
  const bridges =
    /\b(ipcMain|ipcRenderer|contextBridge|openExternal|openPath|registerSchemesAsPrivileged|protocol\.handle|loadFile)\b/
  expect(filesWith('electron', bridges)).toEqual([])
  expect(filesWith('electron', /from 'electron'/).length).toBeGreaterThan(0)
})

test('no switch of Chromium is loosened', () => {
  const loose =
    /allowRunningInsecureContent|experimentalFeatures|enableBlinkFeatures|appendSwitch|setCertificateVerifyProc|disable-web-security|webSecurity: false/
  expect(filesWith('electron', loose)).toEqual([])
})

test('no text is run or put into a page as HTML', () => {
  const run =
    /\beval\(|new Function\(|\.innerHTML|\.outerHTML|insertAdjacentHTML|dangerouslySetInnerHTML|document\.write/
  expect(['renderer', 'electron', 'db', 'domain'].flatMap((folder) => filesWith(folder, run))).toEqual([])
  const inline = /<script(?![^>]*\bsrc=)|\son[a-z]+="|javascript:/
  expect(sources('renderer').filter(([path]) => path.endsWith('.html')).length).toBeGreaterThan(0)
  expect(sources('renderer').filter(([path, text]) => path.endsWith('.html') && inline.test(text))).toEqual(
    [],
  )
})

test('the packaged program runs nothing but itself: fuses are set', () => {
  const { electronFuses, asar } = JSON.parse(readFileSync(join(root, 'build/electron-builder.json'), 'utf8'))
  expect(asar).toBe(true)
  expect(electronFuses).toEqual({
    runAsNode: false,
    enableCookieEncryption: true,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    grantFileProtocolExtraPrivileges: false,
    // No fuse: what they are set in is sealed anew on a Mac.
    resetAdHocDarwinSignature: true,
  })
})

test('only the desktop window, a browser to show it in and the run of a script start other programs', () => {
  const starts = filesWith('electron', /from 'node:child_process'/)
  expect(starts.toSorted()).toEqual(['electron/browser.ts', 'electron/start.ts'])
  expect(
    ['db', 'domain'].flatMap((folder) => filesWith(folder, /node:child_process|node:net'|node:http/)),
  ).toEqual([])
})

test('the host asks for nothing outside but the version feed that a manager has set: nothing else connects anywhere', () => {
  const asks =
    /\bfetch\(['"`]?http|https?\.(get|request)\(|import \{[^}]*\b(get|request|connect|createConnection)\b[^}]*\} from 'node:(https?|http2|net|tls)'/
  expect(['electron', 'db', 'domain'].flatMap((folder) => filesWith(folder, asks))).toEqual([
    'electron/updates/read-feed.ts',
  ])
})

test('no address of other programs is answered to: the program registers no protocol', () => {
  expect(filesWith('electron', /setAsDefaultProtocolClient/)).toEqual([])
  const configuration = JSON.parse(readFileSync(join(root, 'build/electron-builder.json'), 'utf8'))
  expect(configuration).not.toHaveProperty('protocols')
  expect(configuration.mac).not.toHaveProperty('protocols')
})
