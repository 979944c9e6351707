import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, onTestFinished } from 'vitest'
import { journalEndPath } from '../../db/data-paths.ts'
import { choosePerson, dialog, strips } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { factsOf, installTroubles, keptAnswers } from '../support/installed.ts'
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
    const asked = noteAsked(page, ['repair', 'car'])
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
    // A day sheet that is shown again has nothing new to read ahead, which it would do after two seconds.
    await page.getByRole('link', { name: 'Shop floor' }).click()
    await page.getByRole('link', { name: 'Day sheet' }).click()
    await page.waitForTimeout(3_000)
    expect(asked()).toEqual(['repair', 'car'])

    await second.kill()
    await page.reload()
    await page.getByText(/^No connection to the host\. Shown as of \d\d:\d\d\./).waitFor()
    await page
      .getByRole('button', { name: /clock in/i })
      .first()
      .click()
    await strips(page).getByText('1 entry kept on this device').waitFor()
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

    const kept = keepDatabase(dataDir)
    const third = await startProgram(dataDir, port)
    await strips(page).getByText('kept on this device').waitFor({ state: 'detached' })
    await page.getByRole('button', { name: 'Stop clock' }).first().waitFor()
    await third.kill()
    const starts = factsOf(dataDir, 'clockStarted')
    expect(starts).toHaveLength(1)
    expect(Date.parse(starts[0] ?? '')).toBeLessThanOrEqual(entered)

    // The workshop goes on from before: what this device had sent is sent once more.
    const other = await page.context().newPage()
    await other.goto(new URL('/cars', second.windowUrl).href)
    await strips(other).getByText('No connection to the host.').waitFor()
    putBack(dataDir, kept)
    expect(factsOf(dataDir, 'clockStarted')).toEqual([])
    const loads = [countLoads(page), countLoads(other)]
    const fourth = await startProgram(dataDir, port)
    await other.getByRole('link', { name: 'Larkspur 4' }).waitFor()
    await expect.poll(() => factsOf(dataDir, 'clockStarted')).toEqual(starts)
    await expect.poll(() => page.evaluate(keptAnswers)).toContain('[["car"]')
    await fourth.kill()
    expect(loads.map((count) => count())).toEqual([1, 1])
    expect(factsOf(dataDir, 'clockStarted')).toEqual(starts)
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

/** The database as it is after a host was killed, with all that belongs to it, by name. */
function keepDatabase(dataDir: string): ReadonlyMap<string, Buffer> {
  const names = readdirSync(dataDir).filter((name) => name.startsWith('workshop.db'))
  return new Map(names.map((name) => [join(dataDir, name), readFileSync(join(dataDir, name))]))
}

/** As the host says it is done: what is remembered of the newer one goes with it. */
function putBack(dataDir: string, kept: ReadonlyMap<string, Buffer>): void {
  for (const path of keepDatabase(dataDir).keys()) rmSync(path)
  rmSync(journalEndPath(dataDir))
  for (const [path, bytes] of kept) writeFileSync(path, bytes)
}

/** How often the page has been loaded since. */
function countLoads(page: Page): () => number {
  let count = 0
  page.on('domcontentloaded', () => (count += 1))
  return () => count
}

/** Which of these views the page has asked the host for since, in turn. */
function noteAsked(page: Page, names: readonly string[]): () => readonly string[] {
  const asked: string[] = []
  page.on('request', (request) => {
    const [, name = ''] = /^\/trpc\/(\w+)$/.exec(new URL(request.url()).pathname) ?? []
    if (names.includes(name)) asked.push(name)
  })
  return () => asked
}
