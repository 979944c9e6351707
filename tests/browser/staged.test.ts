import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { FuseV1Options, getCurrentFuseWire } from '@electron/fuses'
import type { Page } from 'playwright-core'
import { describe, expect, onTestFinished } from 'vitest'
import { stage, type Staged } from '../../build/stage.ts'
import { codeDialog, dialog, photographOpening, PRINTED, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { textOfPdf } from '../support/pdf-text.ts'
import { launchProgram } from '../support/program.ts'
import { openBrowser } from '../support/served.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const nora = { name: 'Nora Feld', code: '271828' }
/** Milliseconds; it packs everything before its story begins. */
const PACKED_MS = 300_000
/** Milliseconds; the first plan on a busy machine. */
const PLANNED_MS = 60_000
const caption = 'The floor opened, spot welds drilled out'

// Elsewhere electron-builder takes no stand-in for the Electron runtime: there the installers are made for real.
describe.skipIf(process.platform !== 'linux')('the packaged program', () => {
  browserTest(
    'the files of an installer, far from this tree, carry a workshop from nothing to a plan and an owner’s report',
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'panelwright-staged-'))
      onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
      const staged = await stage(root, join(folder, 'staged'))
      expectWhatIsShipped(staged)
      await expectFuses(staged)

      const program = launchProgram(join(folder, 'data'), 0, join(staged.app, 'dist/electron/start.js'))
      onTestFinished(program.kill)
      const windowUrl = await program.address
      const open = await openBrowser()
      const { page } = await open(windowUrl)

      await setUpWithCar(page)
      await agree(page)
      await passGate(page)
      await takePlan(page)
      await issueReport(page, windowUrl)
      await visitTheRest(page)
      expect(program.errors()).toBe('')
    },
    PACKED_MS,
  )
})

/** Nothing of the tree that it was built in, and nothing that only builds or tests need. */
function expectWhatIsShipped({ app, around }: Staged): void {
  const above = function* (from: string): Generator<string> {
    yield from
    if (dirname(from) !== from) yield* above(dirname(from))
  }
  expect([...above(dirname(app))].filter((path) => existsSync(join(path, 'node_modules')))).toEqual([])
  expect(readdirSync(app).sort()).toEqual(['dist', 'node_modules', 'package.json'])
  expect(readdirSync(join(app, 'dist')).sort()).toEqual(['electron', 'renderer'])
  const packages = readdirSync(join(app, 'node_modules'))
  expect(packages).toContain('better-sqlite3')
  for (const name of ['electron', 'react', 'vite', 'zod', '.bin']) expect(packages).not.toContain(name)
  const prebuilt = readdirSync(join(app, 'node_modules/better-sqlite3/prebuilds'))
  expect(prebuilt).toEqual([`${process.platform}-${process.arch}.node`])
  expect(readFileSync(join(around, 'resources/licences/licences.txt'), 'utf8')).toBe(
    readFileSync(join(app, 'dist/renderer/licences.txt'), 'utf8'),
  )
  expect(existsSync(join(around, 'resources/LICENSE.txt'))).toBe(true)
  expect(existsSync(join(around, 'LICENSE.electron.txt'))).toBe(true)
}

/** As electron-builder has set them in the program file. */
async function expectFuses({ around }: Staged): Promise<void> {
  const wire = await getCurrentFuseWire(join(around, 'panelwright'))
  const set = Object.values(FuseV1Options).filter(
    (fuse) => typeof fuse === 'number' && wire[fuse] === '1'.charCodeAt(0),
  )
  expect(set).toEqual([
    FuseV1Options.EnableCookieEncryption,
    FuseV1Options.EnableEmbeddedAsarIntegrityValidation,
    FuseV1Options.OnlyLoadAppFromAsar,
  ])
}

async function setUpWithCar(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Set up your workshop' }).click()
  await page.getByLabel('Name of the workshop').fill('Alder Yard')
  await page.getByLabel('Name of the first manager').fill(nora.name)
  await page.getByLabel('The manager’s own code').fill(nora.code)
  await page.getByLabel('The code once more').fill(nora.code)
  await page.getByRole('button', { name: 'Set up the workshop' }).click()
  await page.getByText(`Signed in: ${nora.name}`).waitFor()

  await page.getByRole('link', { name: 'Cars', exact: true }).click()
  await page.getByRole('button', { name: 'Add a car' }).first().click()
  const car = dialog(page, 'Add a car')
  await car.getByLabel('Name').first().fill('Corran 5')
  await car.getByLabel('Shell number').fill('21/A')
  await car.getByLabel('Name').nth(1).fill('Ada Fell')
  await car.getByRole('radio', { name: 'in work' }).check()
  await car.getByLabel(/^First photo/).setInputFiles(await testPhotoFile('as-it-came.jpg'))
  await car.getByRole('button', { name: 'Add the car' }).click()
  await car.waitFor({ state: 'detached' })

  await page.getByRole('link', { name: 'Corran 5' }).first().click()
  await page.getByRole('button', { name: 'Add a repair' }).first().click()
  const repair = dialog(page, 'Add a repair')
  await repair.getByLabel('Repair type').selectOption({ label: 'Boot floor' })
  await repair.getByRole('button', { name: 'Add the repair' }).click()
  await repair.waitFor({ state: 'detached' })
}

async function agree(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Estimate' }).click()
  await page.getByRole('button', { name: /^The owner accepts/ }).click()
  const accept = dialog(page, 'Corran 5: the owner accepts').first()
  await accept.getByRole('button', { name: 'Go on to sign' }).click()
  const agreed = codeDialog(page, 'Corran 5: the owner accepts')
  await agreed.getByLabel('Own code').fill(nora.code)
  await agreed.getByRole('button', { name: 'Sign', exact: true }).click()
  await accept.waitFor({ state: 'detached' })
}

/** Photos go through the image worker, the signature through the journal. */
async function passGate(page: Page): Promise<void> {
  await page
    .getByRole('region', { name: 'First steps' })
    .getByRole('link', { name: 'The first gate' })
    .first()
    .click()
  await photographOpening(page)
  await page.getByRole('button', { name: 'write captions' }).click()
  await dialog(page, 'Captions').getByRole('textbox').first().fill(caption)
  await dialog(page, 'Captions').getByRole('button', { name: 'Save' }).click()
  await page.getByText(caption).first().waitFor()
  await page.getByRole('button', { name: 'Sign off gate' }).click()
  const signing = dialog(page, 'Sign off opened')
  await signing.getByRole('button', { name: 'Go on to sign' }).click()
  await codeDialog(page, 'Sign off opened').getByLabel('Own code').fill(nora.code)
  await codeDialog(page, 'Sign off opened').getByRole('button', { name: 'Sign opened' }).click()
  await page.getByRole('heading', { name: 'assessed is next' }).waitFor()
}

/** Made by the planner's worker. */
async function takePlan(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Plan', exact: true }).click()
  const proposal = page.getByRole('region', { name: 'A newer plan' })
  // The planner waits until it has been quiet, then takes its seconds of a processor.
  await proposal.getByRole('button', { name: 'Take it', disabled: false }).click({ timeout: PLANNED_MS })
  await proposal.waitFor({ state: 'detached' })
}

/** Set by the printer's worker with the fonts that lie beside it. */
async function issueReport(page: Page, windowUrl: string): Promise<void> {
  await page.getByRole('link', { name: 'Owner reports' }).click()
  await page.getByRole('button', { name: 'Issue it' }).click()
  await dialog(page, /^Issue report 1/)
    .getByRole('button', { name: 'Issue it' })
    .click()
  const printed = page.getByRole('link', { name: 'Open the PDF' })
  await printed.waitFor(PRINTED)
  const href = await printed.getAttribute('href')
  const file = await page.request.get(new URL(href ?? '', windowUrl).href)
  expect(file.headers()['content-type']).toBe('application/pdf')
  expect(textOfPdf(await file.body()).replaceAll('\n', ' ')).toContain(caption)
}

async function visitTheRest(page: Page): Promise<void> {
  for (const name of ['Shop floor', 'Day sheet', 'Owner decisions', 'Variance', 'Workshop']) {
    await page.getByRole('link', { name, exact: true }).first().click()
    await page.locator('nav [aria-current="page"]', { hasText: name }).first().waitFor()
    await page.getByRole('heading', { level: 1 }).first().waitFor()
  }
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
  await page.getByRole('link', { name: 'Updates' }).click()
  await page.getByText(`Panelwright ${version} (`).waitFor()
  const licences = await page.request.get(new URL('/licences.txt', page.url()).href)
  expect(licences.headers()['content-type']).toBe('text/plain; charset=utf-8')
  expect(await licences.text()).toContain('SIL OPEN FONT LICENSE')
}
