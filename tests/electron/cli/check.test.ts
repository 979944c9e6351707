import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import Sqlite from 'better-sqlite3'
import { attachmentIdSchema } from '../../../domain/ids.ts'
import { createTestHost, type TestHost } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { runScript } from '../../support/run-script.ts'
import { welder } from '../../support/workshop.ts'

let host: TestHost
beforeEach(async () => {
  host = await createTestHost()
  const screen = await host.openScreen()
  const carId = host.workshop.addCar('Larkspur 4', 'C-1')
  const put = await screen.upload(await createTestPhoto({ width: 64, height: 48, color: '#357' }))
  const { sha256 } = (await put.json()) as { readonly sha256: string }
  // Asking for a size waits until all of them are made.
  await screen.request(`/photos/${sha256}/thumb`)
  const attachmentId = attachmentIdSchema.parse('photo-one')
  const photo = {
    attachmentId,
    sha256,
    taken: null,
    caption: 'As it came in',
    serves: [{ what: 'car' as const }],
  }
  await screen.run('attachPhoto', photo, { carId, by: welder })
})
afterEach(() => host.close())

const check = (...args: readonly string[]) => runScript('electron/cli/check.ts', ...args)
const dataDir = () => host.workshop.dataDir!

test('a sound folder passes, also beside its running host', async () => {
  const { code, out } = await check('--data', dataDir())
  const [found, by] = out.split('\n')
  expect([code, found]).toEqual([0, `All is well in ${dataDir()}.`])
  expect(by).toMatch(/^Checked by Panelwright \d+\.\d+\.\d+ \((?:[0-9a-f]{12}\+?|unknown)\)\.$/)
})

test('one changed byte of a photo is found', async () => {
  const originals = join(dataDir(), 'photos', 'originals')
  const name = readdirSync(originals, { recursive: true, encoding: 'utf8' }).find((each) =>
    /[0-9a-f]{64}$/.test(each),
  )!
  const bytes = readFileSync(join(originals, name))
  bytes[bytes.length - 10]! ^= 1
  writeFileSync(join(originals, name), bytes)
  const { code, out } = await check('--data', dataDir())
  expect(code).toBe(1)
  expect(out).toContain('FAULT')
  expect(out).toContain('1 fault in')
})

test('a changed journal line is found', async () => {
  const db = new Sqlite(join(dataDir(), 'workshop.db'))
  db.exec('DROP TRIGGER payloads_do_not_change')
  db.exec(`UPDATE payload SET json = replace(json, 'Larkspur 4', 'Larkspur 5')`)
  db.close()
  const { code, out } = await check('--data', dataDir())
  expect(code).toBe(1)
  expect(out).toContain('FAULT')
})

test('a broken size is mended where no host is running, and never beside one', async () => {
  const beside = await check('--data', dataDir(), '--mend')
  expect(beside).toMatchObject({ code: 2, out: expect.stringContaining('Panelwright is running') as string })
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-mend-'))
  cpSync(dataDir(), folder, { recursive: true })
  const derived = join(folder, 'photos', 'derived')
  for (const name of readdirSync(derived)) writeFileSync(join(derived, name), 'half')
  const { code, out } = await check('--data', folder, '--mend')
  expect(out).toContain('MENDED A size for screens of the photo')
  expect(out).toContain('1 of 1 finding mended.')
  expect(code).toBe(0)
  rmSync(folder, { recursive: true })
})

test('a folder without a workshop is said to be one, and nothing is made in it', async () => {
  const empty = mkdtempSync(join(tmpdir(), 'panelwright-empty-'))
  const { code, out } = await check('--data', empty)
  expect(code).toBe(2)
  expect(out).toContain('There is no workshop in')
  expect(readdirSync(empty)).toEqual([])
  rmSync(empty, { recursive: true })
})

test('a command that is given wrongly says how it is given', async () => {
  const { code, out } = await check('--folder', 'x')
  expect(code).toBe(2)
  expect(out).toContain('npm run check -- [--data DIR]')
})
