import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { expect, onTestFinished, test } from 'vitest'
import { makeInstallable } from '../../build/installable.ts'

interface Icon {
  readonly src: string
  readonly sizes: string
  readonly purpose: string
}

/** Built screens of two files, and of more where they are named. */
async function built(...more: readonly string[]) {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-installable-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  mkdirSync(join(folder, 'assets'))
  for (const name of ['index-Ab12.js', 'index-Cd34.css', ...more])
    writeFileSync(join(folder, 'assets', name), '/* */')
  writeFileSync(join(folder, 'index.html'), '<html><head><title>Panelwright</title></head></html>')
  await makeInstallable(folder)
  const read = (name: string) => readFileSync(join(folder, name), 'utf8')
  const page = read('index.html')
  return {
    folder,
    page,
    worker: read('service-worker.js'),
    manifest: JSON.parse(read('manifest.webmanifest')) as { start_url: string; icons: readonly Icon[] },
    version: /name="screens-version" content="([0-9a-f]{16})"/.exec(page)?.[1] ?? '',
  }
}

test('the worker keeps exactly the files of its version, and the page says which one it is of', async () => {
  const { page, worker, version } = await built()
  expect(version).not.toBe('')
  expect(worker).toContain(version)
  expect(new Set(worker.match(/\/assets\/[\w.-]+/g))).toEqual(
    new Set(['/assets/index-Ab12.js', '/assets/index-Cd34.css']),
  )
  expect(page).toContain('<link rel="manifest" href="/manifest.webmanifest" crossorigin="use-credentials">')
})

test('other screens are another version', async () => {
  const [one, other, again] = [await built(), await built('car-Ef56.js'), await built()]
  expect(other.version).not.toBe(one.version)
  expect(again.version).toBe(one.version)
})

test('the manifest’s icons are there in the sizes that it says, one of them without a see-through corner', async () => {
  const { folder, manifest } = await built()
  for (const { src, sizes, purpose } of manifest.icons) {
    const { width, height, hasAlpha } = await sharp(join(folder, src)).metadata()
    expect(`${width}x${height}`).toBe(sizes)
    expect(hasAlpha).toBe(purpose === 'any')
  }
  expect(manifest.icons.map(({ purpose }) => purpose)).toContain('maskable')
})
