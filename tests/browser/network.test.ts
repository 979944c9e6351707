import { createHash, X509Certificate } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { describe, expect, onTestFinished } from 'vitest'
import { hostCertificatePath } from '../../db/data-paths.ts'
import { choosePerson, dialog, signIn, strips } from '../support/at-screen.ts'
import { browserTest, launchBrowser, newScreen } from '../support/browser.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { hasLoopbacks } from '../support/loopbacks.ts'
import { type Served, serve } from '../support/served.ts'

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

const isSafe = (page: Page) =>
  page.evaluate(() => ({
    isSecure: isSecureContext,
    hasIds: 'randomUUID' in crypto,
    hasDigests: 'subtle' in crypto,
  }))

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
      await office.getByText('Compare its fingerprint').waitFor()

      const phone = await takePhone([takingCertificateOf(served)])
      await letIn(office, phone, secure, 'Boot floor phone')
      await phone.goto(`${secure}/cars/car-s-101`)
      await phone.getByRole('heading', { level: 1 }).waitFor()
      expect(await isSafe(phone)).toEqual({ isSecure: true, hasIds: true, hasDigests: true })

      await office.getByRole('button', { name: 'Close the workshop network' }).click()
      await strips(phone).getByText('No connection to the host.').waitFor()
      await office.getByRole('button', { name: 'open it without encryption' }).click()
      await dialog(office, 'Open without encryption?')
        .getByRole('button', { name: 'Open without encryption' })
        .click()
      await office.getByText('Caution: nothing is encrypted.').waitFor()
      const plain = secure.replace('https:', 'http:')
      await office.getByText(plain, { exact: true }).waitFor()

      const old = await takePhone()
      await letIn(office, old, plain, 'Old phone')
      await old.goto(`${plain}/cars/car-s-101/repairs/repair-boot-floor`)
      await choosePerson(old, 'Ilse Brandt')
      await old.getByRole('button', { name: 'clock in here' }).click()
      await old.getByText('Ilse Brandt, on this since').waitFor()
      expect(await isSafe(old)).toEqual({ isSecure: false, hasIds: false, hasDigests: false })
    },
  )
})
