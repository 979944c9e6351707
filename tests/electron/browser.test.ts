import { expect, test } from 'vitest'
import { findBrowser, quietFlags } from '../../electron/browser.ts'

const machine = (
  platform: NodeJS.Platform,
  env: Readonly<Record<string, string>>,
  ...programs: readonly string[]
) => ({
  platform,
  env,
  home: '/home/a',
  isProgram: (path: string) => programs.includes(path),
})

test('a browser on PATH comes first', () => {
  const env = { PATH: '/home/a/bin:/usr/bin' }
  expect(findBrowser(machine('linux', env, '/usr/bin/chromium', '/home/a/bin/chromium'))).toBe(
    '/home/a/bin/chromium',
  )
})

test('one that is not on PATH is found where it is usually installed', () => {
  expect(findBrowser(machine('linux', { PATH: '' }, '/opt/google/chrome/chrome'))).toBe(
    '/opt/google/chrome/chrome',
  )
  const mac = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'
  expect(findBrowser(machine('darwin', {}, mac))).toBe(mac)
  const edge = 'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe'
  expect(findBrowser(machine('win32', { 'PROGRAMFILES(X86)': 'C:\\Program Files (x86)' }, edge))).toBe(edge)
})

test('a folder named relative on PATH is not searched, as it changes with where one stands', () => {
  expect(findBrowser(machine('linux', { PATH: '.:bin' }, 'chromium', 'bin/chromium'))).toBeUndefined()
})

test('none is found where none is', () => {
  for (const platform of ['linux', 'darwin', 'win32'] as const)
    expect(findBrowser(machine(platform, {}))).toBeUndefined()
})

test('the sandbox is given up for root only', () => {
  expect(quietFlags(true)).toContain('--no-sandbox')
  expect(quietFlags(false)).not.toContain('--no-sandbox')
})
