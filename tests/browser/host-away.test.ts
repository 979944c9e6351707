import { rmSync } from 'node:fs'
import { expect, onTestFinished } from 'vitest'
import { choosePerson, dialog, strips } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { freePort, startProgram } from '../support/program.ts'
import { cutNetwork, openBrowser } from '../support/served.ts'
import { createWorkshop } from '../support/workshop.ts'

/** The small workshop in a folder of its own, and screens that go with the test. */
async function prepare() {
  const workshop = createWorkshop({ keptIn: 'folder', now: Date.now() - 3_600_000 })
  addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { passed: 'sealed' })
  workshop.db.close()
  const dataDir = workshop.dataDir ?? ''
  onTestFinished(() => rmSync(dataDir, { recursive: true }))
  return { dataDir, port: await freePort(), open: await openBrowser() }
}

browserTest(
  'when the host is killed the screen says so, keeps what was typed, and goes on when it is back',
  async () => {
    const { dataDir, port, open } = await prepare()
    const first = await startProgram(dataDir, port)
    const at = '/cars/car-s-101/repairs/repair-boot-floor'
    const { page } = await open(first.windowUrl, { size: 'tablet', at, tolerates: cutNetwork })
    await choosePerson(page, 'Ilse Brandt')
    await page.getByRole('button', { name: 'add a finding', exact: true }).click()
    const finding = dialog(page, 'Add a finding')
    const extent = finding.getByLabel('How far it goes')
    await extent.fill('40 mm along the lower edge')

    await first.kill()
    await strips(page).getByText('No connection to the host.').waitFor()
    await expect.poll(() => extent.inputValue()).toBe('40 mm along the lower edge')
    await finding.getByLabel('What it needs').fill('a new lower edge')
    await finding.getByRole('radio', { name: 'holed' }).check()
    await finding.getByRole('button', { name: 'Add it' }).click()
    await finding.waitFor({ state: 'detached' })
    await strips(page).getByText('1 entry kept on this device').waitFor()

    const second = await startProgram(dataDir, port)
    onTestFinished(() => second.kill())
    await page.getByText('40 mm along the lower edge').waitFor()
    await strips(page).getByText('No connection to the host.').waitFor({ state: 'detached' })
    await page.getByText('40 mm along the lower edge').waitFor()
  },
)

browserTest(
  'a screen that is opened while the host is away says what to do, and shows itself when asked again',
  async () => {
    const { dataDir, port, open } = await prepare()
    const first = await startProgram(dataDir, port)
    const { page } = await open(first.windowUrl, { at: '/cars', tolerates: cutNetwork })
    await page.getByRole('link', { name: 'Larkspur 4' }).waitFor()
    // Screens are fetched one after another, each with all that it brings: the one after the car's says that the car's is whole.
    await page.waitForFunction(() =>
      performance.getEntriesByType('resource').some(({ name }) => name.includes('/assets/card-screen')),
    )
    // A browser that takes itself to be without a network must ask all the same: the host may be this very computer.
    await page.evaluate(() => window.dispatchEvent(new Event('offline')))
    await first.kill()
    await strips(page).getByText('No connection to the host.').waitFor()
    // What was read before stays readable; what was not is asked for again.
    await page.getByRole('link', { name: 'Larkspur 4' }).waitFor()
    await page.getByRole('link', { name: 'Larkspur 4' }).click()
    await page.getByText('The host cannot be reached.').waitFor()

    const second = await startProgram(dataDir, port)
    onTestFinished(() => second.kill())
    await page.getByRole('button', { name: 'Try again' }).click()
    await page.getByRole('heading', { level: 1, name: /Larkspur 4/ }).waitFor()
  },
)
