import { rmSync } from 'node:fs'
import { expect, onTestFinished } from 'vitest'
import { choosePerson, dialog } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { clockStarts, installTroubles } from '../support/installed.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { freePort, startProgram } from '../support/program.ts'
import { cutNetwork, openBrowser } from '../support/served.ts'
import { createWorkshop } from '../support/workshop.ts'

browserTest(
  'an installed app opens without the host on the day as it was, and a clock started then counts from then, once',
  async () => {
    const dataDir = prepareFolder()
    const port = await freePort()
    const open = await openBrowser()
    const first = await startProgram(dataDir, port)
    const { page } = await open(first.windowUrl, {
      size: 'phone',
      tolerates: [...cutNetwork, /service-worker/],
    })
    // A host that was started anew no longer takes the screen for its own window: from here on it is a paired tablet.
    await first.kill()
    const second = await startProgram(dataDir, port)
    await page.goto(new URL('/day-sheet', second.windowUrl).href)
    await choosePerson(page, 'Ilse Brandt')
    await page
      .getByRole('button', { name: /clock in/i })
      .first()
      .waitFor()
    await page.waitForFunction(async () => (await caches.match('/index.html')) !== undefined)
    // Playwright's contexts are private windows, in which nothing is ever installed.
    expect(await installTroubles(page)).toEqual([expect.objectContaining({ errorId: 'in-incognito' })])
    await expect.poll(() => page.evaluate(keptAnswers)).toContain('[["car"]')

    await second.kill()
    await page.reload()
    await page.getByText(/^No connection to the host\. Shown as of \d\d:\d\d\./).waitFor()
    await page
      .getByRole('button', { name: /clock in/i })
      .first()
      .click()
    await page.getByText('1 entry kept on this device').waitFor()
    await page.getByRole('button', { name: 'Stop clock' }).first().waitFor()
    await page.getByRole('button', { name: 'show' }).click()
    const sheet = dialog(page, 'On this device')
    await sheet.getByText('Clock started on Boot floor').waitFor()
    await sheet.getByText(/Larkspur 4 .*Ilse Brandt/).waitFor()
    await sheet.getByRole('button', { name: 'Close' }).click()
    const entered = Date.now()
    // Nobody has opened this repair on the phone before.
    await page.getByRole('link', { name: 'Boot floor' }).click()
    await page.getByRole('heading', { level: 1, name: /Boot floor/ }).waitFor()
    await page.getByRole('link', { name: 'Day sheet' }).click()
    expect(await page.evaluate(keptAnswers)).not.toMatch(/costs":\[|signedIn":"/)

    const third = await startProgram(dataDir, port)
    await page.getByText('kept on this device').waitFor({ state: 'detached' })
    await page.getByRole('button', { name: 'Stop clock' }).first().waitFor()
    await third.kill()
    const starts = clockStarts(dataDir)
    expect(starts).toHaveLength(1)
    expect(Date.parse(starts[0] ?? '')).toBeLessThanOrEqual(entered)
  },
)

/** The small workshop an hour ago, with one repair to work on. */
function prepareFolder(): string {
  const workshop = createWorkshop({ keptIn: 'folder', now: Date.now() - 3_600_000 })
  addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { passed: 'sealed' })
  workshop.db.close()
  const dataDir = workshop.dataDir ?? ''
  onTestFinished(() => rmSync(dataDir, { recursive: true }))
  return dataDir
}

/** All answers that the page has left in the browser, as text. */
async function keptAnswers(): Promise<string> {
  const opening = indexedDB.open('panelwright-views')
  const database = await new Promise<IDBDatabase>((resolve) => {
    opening.onsuccess = () => resolve(opening.result)
  })
  const reading = database.transaction('views').objectStore('views').getAll()
  const views = await new Promise<unknown[]>((resolve) => {
    reading.onsuccess = () => resolve(reading.result)
  })
  return JSON.stringify(views)
}
