import { createHash, X509Certificate } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { describe, expect, onTestFinished } from 'vitest'
import { hostCertificatePath } from '../../db/data-paths.ts'
import { choosePerson, comeBackWith, dialog, signIn, strips, testPhotoFile } from '../support/at-screen.ts'
import { browserTest, launchBrowser, newScreen } from '../support/browser.ts'
import { factsOf } from '../support/installed.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { hasLoopbacks } from '../support/loopbacks.ts'
import { type Served, serve } from '../support/served.ts'
import { codes, welder } from '../support/workshop.ts'

const address = '192.168.7.22'
const bound = '127.0.0.6'

const serveOnNetwork = () =>
  serve({
    networks: { interfaces: () => ({ wired: [{ address, internal: false }] }), bindAt: () => bound },
    before: (workshop) => {
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', {
        plan: { gates: { opened: photosOnly(1) } },
      })
    },
  })

/** A phone of the network, on which the name and address of the host lead to it. */
async function takePhone(flags: readonly string[] = []): Promise<Page> {
  const browser = await launchBrowser([`--host-resolver-rules=MAP ${address} ${bound}`, ...flags])
  onTestFinished(() => browser.close())
  const context = await newScreen(browser, { size: 'phone' })
  context.setDefaultTimeout(15_000)
  return context.newPage()
}

/**
 * Chromium takes the host's certificate by its key alone, as it keeps authorities in a store of the system; that the authority
 * vouches for it is held by the tests of TLS.
 */
function takingCertificateOf({ dataDir }: Served): string {
  const { publicKey } = new X509Certificate(readFileSync(hostCertificatePath(dataDir)))
  const key = publicKey.export({ type: 'spki', format: 'der' })
  return `--ignore-certificate-errors-spki-list=${createHash('sha256').update(key).digest('base64')}`
}

/** Shows a code in the window and types it on the phone. */
async function letIn(office: Page, phone: Page, origin: string, name: string): Promise<void> {
  await office.getByRole('link', { name: 'Devices', exact: true }).click()
  await office.getByRole('button', { name: 'Let a device in' }).click()
  const shown = dialog(office, 'Let a device in')
  const code = (await shown.getByLabel(/^Pairing code/).innerText()).replaceAll(/\s/g, '')
  await phone.goto(origin)
  await phone.getByLabel('Pairing code').fill(code)
  await phone.getByLabel('Name of this device').fill(name)
  await phone.getByRole('button').click()
  await shown.getByText(`${name} was let in.`).waitFor()
  await shown.getByRole('button', { name: 'Close' }).last().click()
  await office.getByRole('link', { name: 'Network', exact: true }).click()
}

/** What a browser gives a page, by its address: on plain HTTP that is not loopback none of it. */
const givenTo = (page: Page) =>
  page.evaluate(() => ({
    isSecure: isSecureContext,
    ids: 'randomUUID' in crypto,
    digests: 'subtle' in crypto,
    worker: 'serviceWorker' in navigator,
    camera: 'mediaDevices' in navigator,
  }))
const ALL = { isSecure: true, ids: true, digests: true, worker: true, camera: true }
const NOTHING = { isSecure: false, ids: false, digests: false, worker: false, camera: false }

/** How a tablet is told to trust the computer, in the office's window. */
const STEPS = [
  'Bring the certificate to the tablet',
  'Compare its fingerprint',
  'Install it as an authority, and trust it',
  'Open Panelwright',
]

/** Ilse Brandt takes the photo that 'opened' asks for, signs it with her code and clocks in on what is next. */
async function workAt(phone: Page): Promise<void> {
  await choosePerson(phone, 'Ilse Brandt')
  const take = phone.getByRole('button', { name: /^Take photos/ })
  await comeBackWith(phone, take, await testPhotoFile('opened.jpg'))
  await phone.getByRole('button', { name: 'Sign off gate' }).click()
  const signing = dialog(phone, 'Sign off opened')
  await signing.getByRole('button', { name: 'Go on to sign' }).click()
  for (const digit of codes[welder] ?? '')
    await signing.getByRole('button', { name: digit, exact: true }).click()
  await signing.getByRole('button', { name: 'Sign opened' }).click()
  await phone.getByRole('heading', { name: 'assessed is next' }).waitFor()
  await phone.getByRole('button', { name: 'clock in here' }).click()
  await phone.getByText('Ilse Brandt, on this since').waitFor()
}

/** Opens the network that is closed, in the window, without encryption. */
async function openPlain(office: Page): Promise<void> {
  await office.getByRole('button', { name: 'open it without encryption' }).click()
  await dialog(office, 'Open without encryption?')
    .getByRole('button', { name: 'Open without encryption' })
    .click()
  await office.getByText('Caution: nothing is encrypted.').waitFor()
}

/** The page cannot be opened while the host is away; as long as it is open it keeps what is entered, and sends it later. */
async function goOnWithout(office: Page, old: Page): Promise<void> {
  await office.getByRole('button', { name: 'Close the workshop network' }).click()
  await strips(old).getByText('No connection to the host.').waitFor()
  await old.getByRole('button', { name: 'stop clock' }).click()
  await comeBackWith(
    old,
    old.getByRole('button', { name: /^Take photos/ }),
    await testPhotoFile('later.jpg', '#446688'),
  )
  await strips(old).getByText('1 entry and 1 photo kept on this device').waitFor()
  await old.getByRole('button', { name: 'show', exact: true }).click()
  const kept = dialog(old, 'On this device')
  await kept.getByText('Without encryption the browser cannot promise to keep these things').waitFor()
  await openPlain(office)
  await kept.getByText('Nothing waits here').waitFor()
}

describe.skipIf(!hasLoopbacks)('the workshop network', () => {
  browserTest(
    'is opened and closed in the window, and a phone works by it with and without encryption',
    async () => {
      const served = await serveOnNetwork()
      const { page: office } = await served.open({ at: '/workshop?sheet=network' })
      await signIn(office)
      await office.getByRole('button', { name: 'Open the workshop network' }).click()
      const shown = office.getByText(new RegExp(`^https://${address}:\\d+$`)).first()
      const secure = await shown.innerText()
      for (const step of STEPS)
        await office.getByRole('listitem').filter({ hasText: step }).locator('svg').waitFor()

      const phone = await takePhone([takingCertificateOf(served)])
      await letIn(office, phone, secure, 'Boot floor phone')
      await phone.goto(`${secure}/cars/car-s-101`)
      await phone.getByRole('heading', { level: 1 }).waitFor()
      expect(await givenTo(phone)).toEqual(ALL)

      await office.getByRole('button', { name: 'Close the workshop network' }).click()
      await strips(phone).getByText('No connection to the host.').waitFor()
      await openPlain(office)
      const plain = secure.replace('https:', 'http:')
      await office.getByText(plain, { exact: true }).waitFor()

      const old = await takePhone()
      await letIn(office, old, plain, 'Old phone')
      await old.goto(`${plain}/cars/car-s-101/repairs/repair-boot-floor`)
      await workAt(old)
      expect(await givenTo(old)).toEqual(NOTHING)
      await goOnWithout(office, old)
      for (const [kind, times] of [
        ['clockStopped', 1],
        ['photoAttached', 2],
      ] as const)
        expect(factsOf(served.dataDir, kind)).toHaveLength(times)
    },
  )
})
