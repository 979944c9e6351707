import { rmSync } from 'node:fs'
import Sqlite from 'better-sqlite3'
import type { Page } from 'playwright-core'
import { expect, onTestFinished } from 'vitest'
import { databasePath } from '../../db/data-paths.ts'
import { choosePerson, dialog } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
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
    expect(await installTroubles(page)).toEqual([])

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

/** What keeps Chromium from installing it, and what is wrong with its manifest. */
async function installTroubles(page: Page): Promise<readonly unknown[]> {
  const session = await page.context().newCDPSession(page)
  const manifest = await session.send('Page.getAppManifest')
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
  await session.detach()
  // Playwright's contexts are private windows, in which nothing is ever installed.
  return [...manifest.errors, ...installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')]
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

/** When clocks were started, as the journal states it. */
function clockStarts(dataDir: string): readonly string[] {
  const database = new Sqlite(databasePath(dataDir), { readonly: true })
  try {
    return database
      .prepare(`select happened from journal where kind = 'clockStarted'`)
      .pluck()
      .all() as string[]
  } finally {
    database.close()
  }
}
