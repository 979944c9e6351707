import { rmSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { expect, onTestFinished } from 'vitest'
import { choosePerson, codeDialog, dialog, sign, strips } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { allOnDevice } from '../support/on-device.ts'
import { freePort, startProgram } from '../support/program.ts'
import { cutNetwork, openBrowser } from '../support/served.ts'
import { codes, createWorkshop, manager, welder } from '../support/workshop.ts'

const repair = '/cars/car-s-101/repairs/repair-boot-floor'
const ilse = { name: 'Ilse Brandt', code: codes[welder] ?? '' }
const mara = { name: 'Mara Lindqvist', code: codes[manager] ?? '' }

/** Codes of people that stand anywhere on the device of this page. */
async function codesOn(page: Page): Promise<readonly string[]> {
  const found = await page.evaluate(allOnDevice)
  // A page that keeps nothing proves nothing.
  expect(found).toContain('Sign off primed')
  expect(found).toContain('/index.html')
  return Object.values(codes).filter((code) => new RegExp(`(?<![\\w.-])${code}(?![\\w.-])`).test(found))
}

browserTest(
  'a code that was typed as the network went stays nowhere, and a gate that somebody else passed meanwhile says so',
  async () => {
    const workshop = createWorkshop({ keptIn: 'folder', now: Date.now() - 3_600_000 })
    addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { passed: 'sealed' })
    workshop.db.close()
    const dataDir = workshop.dataDir ?? ''
    onTestFinished(() => rmSync(dataDir, { recursive: true }))
    const port = await freePort()
    const open = await openBrowser()
    const first = await startProgram(dataDir, port)
    const tolerates = [...cutNetwork, /service-worker/]
    const { page, context } = await open(first.windowUrl, { size: 'phone', tolerates })
    // A host that was started anew takes the screen for a paired device, whose screens are kept on it.
    await first.kill()
    const second = await startProgram(dataDir, port)
    onTestFinished(() => second.kill())
    await page.goto(new URL(repair, second.windowUrl).href)
    await choosePerson(page, ilse.name)
    await page.waitForFunction(async () => (await caches.match('/index.html')) !== undefined)

    await page.getByRole('button', { name: 'Sign off gate' }).click()
    await dialog(page, 'Sign off primed').getByRole('button', { name: 'Go on to sign' }).click()
    const asked = codeDialog(page, 'Sign off primed')
    await asked.getByLabel('Own code').fill(ilse.code)
    // Nothing new goes out, and the page has not heard of it yet.
    await context.setOffline(true)
    await asked.getByRole('button', { name: 'Sign primed' }).click()
    await page.getByRole('button', { name: 'Keep it prepared' }).click()
    await strips(page).getByText('1 gate prepared, not signed yet.').waitFor()
    expect(await codesOn(page)).toEqual([])

    const { page: office } = await open(second.windowUrl, { at: repair, tolerates })
    await choosePerson(office, mara.name)
    await office.getByRole('button', { name: 'Sign off gate primed' }).click()
    await dialog(office, 'Sign off primed').getByRole('button', { name: 'Go on to sign' }).click()
    await sign(office, 'Sign off primed', mara, 'Sign primed')
    await office.getByRole('heading', { name: 'trial-fitted is next' }).waitFor()

    await context.setOffline(false)
    await page.getByRole('heading', { name: 'trial-fitted is next' }).waitFor()
    await page.getByRole('button', { name: 'show', exact: true }).click()
    const sheet = dialog(page, 'On this device')
    await sheet.getByRole('button', { name: 'Sign primed' }).click()
    await asked.getByLabel('Own code').fill(ilse.code)
    await asked.getByRole('button', { name: 'Sign primed' }).click()
    await asked.getByText('primed is done on Boot floor already.').waitFor()
    await asked.getByRole('button', { name: 'Close' }).click()
    await sheet.getByText('It was not signed: primed is done on Boot floor already.').waitFor()
    await sheet.getByText('What was prepared stays here until you put it aside.').waitFor()
    expect(await codesOn(page)).toEqual([])
  },
)
