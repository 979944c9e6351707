import { expect } from 'vitest'
import type { Page } from 'playwright-core'
import { dialog, signIn, strips } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { cutNetwork, serve } from '../support/served.ts'

browserTest(
  'a phone is let in by a code, shut out, and sends what waited on it when it is let in again',
  async () => {
    const served = await serve({
      before: (workshop) => {
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor')
      },
    })
    const { page: desk } = await served.open({ at: '/workshop?sheet=devices' })
    await signIn(desk)
    // A device that is not let in is answered with a page in words, styles too.
    const refused = [...cutNetwork, /status of 40[13]/, /Refused to apply style.*'text\/html'/]
    const { page: phone, context } = await served.open({ size: 'phone', tolerates: refused })
    await context.clearCookies()
    await phone.goto(served.url)
    await phone.getByRole('heading', { name: 'This screen is not paired' }).waitFor()
    expect(await violations(phone)).toEqual([])

    await giveCode(phone, 'AAAA AAAA', 'Phone of Ilse')
    await phone.getByText('This is not the code that is shown.').waitFor()
    served.pass({ minutes: 1 })
    await giveCode(phone, await showCode(desk), 'Phone of Ilse')
    await dialog(desk, 'Let a device in').getByText('Phone of Ilse was let in.').waitFor()
    await dialog(desk, 'Let a device in').getByRole('button', { name: 'Close' }).last().click()

    await phone.getByRole('link', { name: 'Day sheet' }).click()
    await phone.getByRole('button', { name: 'Ilse Brandt' }).click()
    await phone.getByRole('button', { name: 'Clock in' }).waitFor()
    await context.setOffline(true)
    await phone.getByRole('button', { name: 'Clock in' }).click()
    await strips(phone).getByText('1 entry kept on this device').waitFor()

    await desk.getByRole('button', { name: 'Shut out Phone of Ilse' }).click()
    await dialog(desk, 'Shut out Phone of Ilse?').getByRole('button', { name: 'Shut it out' }).click()
    await desk.getByRole('button', { name: 'Shut out Phone of Ilse' }).waitFor({ state: 'detached' })
    await context.setOffline(false)
    await phone.getByRole('heading', { name: 'This device was shut out of the workshop.' }).waitFor()
    await phone.getByText('1 entry kept on this device.').waitFor()

    await phone.getByRole('link', { name: 'Give a pairing code' }).click()
    await expect.poll(() => phone.getByLabel('Name of this device').inputValue()).toBe('Phone of Ilse')
    await giveCode(phone, await showCode(desk), 'Phone of Ilse')
    await phone.getByText('1 clocked on').waitFor()
  },
)

async function showCode(desk: Page): Promise<string> {
  await desk.getByRole('button', { name: 'Let a device in' }).click()
  return dialog(desk, 'Let a device in')
    .getByLabel(/^Pairing code/)
    .innerText()
}

async function giveCode(phone: Page, code: string, name: string): Promise<void> {
  await phone.getByLabel('Pairing code').fill(code.replaceAll('\n', ' '))
  await phone.getByLabel('Name of this device').fill(name)
  await phone.getByRole('button', { name: 'Let this device in' }).click()
}
