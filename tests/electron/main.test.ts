import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { expect, onTestFinished, test } from 'vitest'
import { logsFolder, runningMarkPath } from '../../db/data-paths.ts'
import { dataFolder } from '../support/fake-desktop.ts'

const main = fileURLToPath(new URL('../../dist/electron/main.js', import.meta.url))
const standIn = new URL('../support/stand-in-electron.ts', import.meta.url).href

/** The main file as it is built and shipped, in a process of its own, with a stand-in for Electron's runtime. */
function startMain(dataDir: string) {
  const child = spawn(process.execPath, ['--import', standIn, main, '--data', dataDir, '--port', '0'], {
    stdio: 'pipe',
  })
  onTestFinished(() => void child.kill('SIGKILL'))
  let printed = ''
  let errors = ''
  child.stderr.setEncoding('utf8').on('data', (text: string) => (errors += text))
  const isReady = new Promise<void>((resolve, reject) => {
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      printed += text
      if (printed.includes('Panelwright is ready')) resolve()
    })
    child.on('close', () => reject(new Error(`It ended before: ${printed}${errors}`)))
  })
  return { child, isReady, printed: () => printed.trim().split('\n'), errors: () => errors }
}

test('the main file as it is shipped has the host in its own process, shows its page in the sandbox and ends it with the window', async () => {
  const dataDir = dataFolder()
  const { child, isReady, printed, errors } = startMain(dataDir)
  await isReady
  const [name, path, sandbox, ready, window, ...rest] = printed()
  expect([name, path, sandbox, ready]).toEqual([
    'setName Panelwright',
    'setPath userData',
    'enableSandbox',
    'whenReady',
  ])
  const preferences = JSON.parse(window!.replace('window ', ''))
  expect(preferences).toMatchObject({ sandbox: true, contextIsolation: true, nodeIntegration: false })
  expect(preferences).not.toHaveProperty('preload')
  expect(rest.slice(0, 3)).toEqual([
    process.platform === 'darwin'
      ? expect.stringMatching(/^menus Panelwright/)
      : 'menus &File editMenu &View &Help',
    'page 200 Panelwright',
    'show',
  ])
  expect(existsSync(runningMarkPath(dataDir))).toBe(true)

  child.stdin.write('closed\n')
  expect(await once(child, 'close')).toEqual([0, null])
  expect(errors()).toBe('')
  expect(existsSync(runningMarkPath(dataDir))).toBe(false)
  const log = join(logsFolder(dataDir), 'panelwright.log')
  expect(existsSync(log) ? readFileSync(log, 'utf8') : '').not.toContain('defect')
})
