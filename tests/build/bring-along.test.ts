import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { build } from 'vite'
import { bringAlong } from '../../build/bring-along.ts'

let root: string

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'panelwright-bundle-'))
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

test('workers, files and folders that a module reaches lie beside the bundle and are found there', async () => {
  put(
    'electron/api/deep.ts',
    `
    import { readFileSync } from 'node:fs'
    export const worker: URL = new URL('./deep-worker.ts', import.meta.url)
    export const text: string = readFileSync(new URL('../../db/migrations/1.sql', import.meta.url), 'utf8')
    export const folder: URL = new URL('../../db/steps/', import.meta.url)
    export const screens: URL = new URL('../../dist/renderer/', import.meta.url)
  `,
  )
  put('electron/api/deep-worker.ts', `export const double = (n: number): number => 2 * n`)
  put('electron/host.ts', `export * from './api/deep.ts'`)
  put('db/migrations/1.sql', 'select 1')
  put('db/steps/2.sql', 'select 2')
  await bundle()

  expect(readdirSync(join(root, 'dist/electron')).sort()).toEqual([
    '1.sql',
    'deep-worker.js',
    'host.js',
    'steps',
  ])
  const host = await import(pathToFileURL(join(root, 'dist/electron/host.js')).href)
  expect(host.text).toBe('select 1')
  expect(readFileSync(new URL('2.sql', host.folder), 'utf8')).toBe('select 2')
  expect(host.screens.pathname).toBe(pathToFileURL(join(root, 'dist/renderer/')).pathname)
  const worker = await import(host.worker.href)
  expect(worker.double(21)).toBe(42)
})

test('the build stops at an address where nothing is', async () => {
  put('electron/host.ts', `export const lost = new URL('./lost.ts', import.meta.url)`)
  await expect(bundle()).rejects.toThrow('there is nothing at ./lost.ts')
})

test('the build stops at two files that would lie in one place', async () => {
  put(
    'electron/host.ts',
    `export const a = [new URL('./x.sql', import.meta.url), new URL('./more/x.sql', import.meta.url)]`,
  )
  put('electron/x.sql', '')
  put('electron/more/x.sql', '')
  await expect(bundle()).rejects.toThrow('two different files are called x.sql')
})

async function bundle(): Promise<void> {
  await build({
    configFile: false,
    root,
    logLevel: 'silent',
    plugins: [bringAlong(root)],
    build: {
      outDir: join(root, 'dist/electron'),
      ssr: true,
      rolldownOptions: {
        input: { host: join(root, 'electron/host.ts') },
        output: { entryFileNames: '[name].js' },
      },
    },
  })
}

function put(path: string, text: string): void {
  mkdirSync(dirname(join(root, path)), { recursive: true })
  writeFileSync(join(root, path), text)
}
