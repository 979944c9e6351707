import { rmSync } from 'node:fs'
import process from 'node:process'
import type { BrowserContext, Page } from 'playwright-core'
import { describe, expect, onTestFinished } from 'vitest'
import type { ReadScreen } from '../../electron/api/screens.ts'
import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import { readBuiltScreens, startHost } from '../../electron/host.ts'
import { comeBackWith, dialog, strips, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { factsOf, installTroubles, keptAnswers } from '../support/installed.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'
import { killBrowser, trustingBrowser } from '../support/trusting-browser.ts'
import { codes, createWorkshop, manager } from '../support/workshop.ts'

/** The digest of screens that another program has. */
const NEWER = 'f00df00df00df00d'

const address = '192.168.7.23'
const bound = '127.0.0.7'

/** Elsewhere a browser takes authorities from the system, which a test must not change. */
const hasOwnStore = process.platform === 'linux'

describe.skipIf(!hasOwnStore)('a phone that trusts the certificate of the workshop', () => {
  browserTest(
    'installs the app over the network, opens it while the host is off, and loses nothing when it is killed',
    async () => {
      const workshop = createWorkshop({ keptIn: 'folder', now: Date.now() - 3_600_000 })
      const conditions = { minMarginC: 3, maxHumidityPercent: 85, minAirC: null, maxAirC: null }
      const plan = { gates: { primed: { asks: { ...ASKS_NOTHING, conditions } } } }
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan, passed: 'sealed' })
      workshop.db.close()
      const dataDir = workshop.dataDir ?? ''
      onTestFinished(() => rmSync(dataDir, { recursive: true }))
      const first = await startOnNetwork(dataDir)
      const { origin, authority, code } = await openNetwork(first)

      const start = trustingBrowser(authority, { size: 'phone' }, [
        `--host-resolver-rules=MAP ${address} ${bound}`,
      ])
      const before = await start()
      const page = await openPage(before)
      await page.goto(origin)
      await page.getByLabel('Pairing code').fill(code)
      await page.getByLabel('Name of this device').fill('Boot floor phone')
      await page.getByRole('button').click()
      await page.getByRole('link', { name: 'Day sheet' }).click()
      await page.getByRole('button', { name: 'Ilse Brandt' }).click()
      await page.getByRole('button', { name: 'Clock in' }).waitFor()
      await page.waitForFunction(async () => (await caches.match('/index.html')) !== undefined)
      await expect.poll(() => installTroubles(page)).toEqual([])
      await expect.poll(() => page.evaluate(keptAnswers)).toContain('[["car"]')

      await first.close()
      await before.close()
      const dying = await start()
      const alone = await openPage(dying)
      await alone.goto(`${origin}/day-sheet`)
      await alone.getByText(/^No connection to the host\. Shown as of \d\d:\d\d\./).waitFor()
      await alone.getByRole('button', { name: 'Clock in' }).click()
      const clock = alone.getByRole('region', { name: 'Clock' })
      const photo = await testPhotoFile('photo.jpg')
      await comeBackWith(alone, clock.getByRole('button', { name: /^Photo of Boot floor/ }), photo)
      await alone.getByRole('link', { name: 'Boot floor' }).first().click()
      await readAir(alone)
      await strips(alone).getByText('2 entries and 1 photo kept on this device').waitFor()

      // As when its battery is flat.
      await killBrowser(dying)
      const phone = await start()
      const again = await openPage(phone)
      await again.goto(`${origin}/day-sheet`)
      await strips(again).getByText('2 entries and 1 photo kept on this device').waitFor()

      const second = await startOnNetwork(dataDir, newerScreens())
      await strips(again).getByText('kept on this device').waitFor({ state: 'detached' })
      await again.getByRole('region', { name: 'Clock' }).getByRole('button', { name: 'Stop clock' }).waitFor()
      for (const kind of ['clockStarted', 'photoAttached', 'conditionsRead'] as const)
        expect(factsOf(dataDir, kind)).toHaveLength(1)

      // The page that is open goes on as it is and is told; the next start shows the newer ones, without the host too.
      const older = await versionOf(again)
      const other = await openPage(phone)
      await other.goto(`${origin}/cars`)
      await again.getByText('A newer version of these screens is here.').waitFor()
      expect([older === NEWER, await versionOf(again)]).toEqual([false, older])
      await second.close()
      await phone.close()
      const last = await openPage(await start())
      await last.goto(`${origin}/day-sheet`)
      await last.getByText(/^No connection to the host\. Shown as of \d\d:\d\d\./).waitFor()
      expect(await versionOf(last)).toBe(NEWER)
      await expect.poll(() => last.evaluate(() => caches.keys())).toEqual([`screens-${NEWER}`])
    },
  )
})

/** Conditions of the repair that is shown. */
async function readAir(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Air temperature/ }).click()
  const reading = dialog(page, 'Conditions for primed')
  await reading.getByLabel('Air').fill('20')
  await reading.getByLabel('Humidity').fill('50')
  await reading.getByLabel('Steel').fill('18')
  await reading.getByRole('button', { name: 'Record it' }).click()
  await reading.waitFor({ state: 'detached' })
}

const startOnNetwork = (dataDir: string, readScreen = readBuiltScreens()) =>
  startHost({
    readScreen,
    dataDir,
    ...PLAIN_HOST,
    interfaces: () => ({ wired: [{ address, internal: false }] }),
    bindAt: () => bound,
  })

/** What the host's own window has for whoever sets a device up: where it is reached, whom to trust (DER), a pairing code. */
async function openNetwork({ url, windowUrl }: Awaited<ReturnType<typeof startHost>>) {
  const entered = await fetch(windowUrl, { redirect: 'manual' })
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
  const call = async (name: string, input?: unknown): Promise<unknown> => {
    const asked = input === undefined ? {} : { method: 'POST', body: JSON.stringify(input) }
    const headers = { cookie, origin: new URL(url).origin, 'content-type': 'application/json' }
    const answer = await fetch(`${url}trpc/${name}`, { headers, ...asked })
    return ((await answer.json()) as { result: { data: unknown } }).result.data
  }
  await call('signIn', { personId: manager, code: codes[manager] })
  await call('openNetwork', { scheme: 'https' })
  const { origins } = (await call('network')) as { origins: readonly string[] }
  const { text } = (await call('pairingCode', null)) as { text: string }
  const certificate = await fetch(`${url}workshop-certificate.crt`, { headers: { cookie } })
  return { origin: origins[0] ?? '', authority: await certificate.bytes(), code: text }
}

/** The same screens under another version's name. */
function newerScreens(): ReadScreen {
  const built = readBuiltScreens()
  const page = Buffer.from(built('/index.html')?.bytes ?? []).toString()
  const [, version = ''] = /name="screens-version" content="(\w+)"/.exec(page) ?? []
  return (path) => {
    const file = built(path)
    if (file === null || !['/index.html', '/service-worker.js'].includes(path)) return file
    const text = Buffer.from(file.bytes).toString().replaceAll(version, NEWER)
    return { ...file, bytes: new TextEncoder().encode(text) }
  }
}

const versionOf = (page: Page) => page.locator('meta[name="screens-version"]').getAttribute('content')

/** A host that is off, and a device that is not let in yet. */
const expected = [/net::ERR_/, /service-worker/, /status of 401/]

/** A defect on it fails the test. */
async function openPage(phone: BrowserContext): Promise<Page> {
  const page = await phone.newPage()
  const errors: string[] = []
  page.on('console', (message) => {
    const isExpected = expected.some((words) => words.test(message.text()))
    if (message.type() === 'error' && !isExpected) errors.push(message.text())
  })
  page.on('pageerror', (error) => errors.push(error.message))
  onTestFinished(() => expect(errors).toEqual([]))
  return page
}
