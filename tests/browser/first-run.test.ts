import type { Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { demoPeople } from '../../db/demo/demo-people.ts'
import { dialog, sign, signIn, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { serve } from '../support/served.ts'

const nora = { name: 'Nora Feld', code: '271828' }

/** Fills the form of the first start; the small workshop is not there yet. */
async function setUp(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Set up your workshop' }).click()
  await page.getByLabel('Name of the workshop').fill('Alder Yard')
  await page.getByLabel('Time zone').selectOption('Europe/Vienna')
  await page.getByLabel('Name of the first manager').fill(nora.name)
  await page.getByLabel('The manager’s own code').fill(nora.code)
  await page.getByLabel('The code once more').fill(nora.code)
  await page.getByRole('button', { name: 'Set up the workshop' }).click()
  await page.getByRole('heading', { level: 1, name: 'Alder Yard' }).waitFor()
}

async function addCar(page: Page, car: { readonly name: string; readonly shell: string }): Promise<void> {
  await page.getByRole('link', { name: 'Cars', exact: true }).click()
  await page.getByRole('button', { name: 'Add a car' }).click()
  const form = dialog(page, 'Add a car')
  await form.getByLabel('Name').first().fill(car.name)
  await form.getByLabel('Shell number').fill(car.shell)
  await form.getByLabel('Body').selectOption('estate')
  await form.getByLabel('Year').fill('1958')
  await form.getByLabel('Name').nth(1).fill(`Owner of ${car.name}`)
  await form.getByLabel('Promised for').fill('2027-04-30')
  await form.getByRole('radio', { name: 'in work' }).check()
  await form.getByLabel(/^First photo/).setInputFiles(await testPhotoFile('as-it-came.jpg'))
  await form.getByRole('button', { name: 'Add the car' }).click()
  await form.waitFor({ state: 'detached' })
  await page.getByRole('link', { name: car.name }).waitFor()
}

async function addRepair(
  page: Page,
  type: string,
  more: { readonly coveredBy?: string } = {},
): Promise<void> {
  await page.getByRole('button', { name: 'Add a repair' }).first().click()
  const form = dialog(page, 'Add a repair')
  await form.getByLabel('Repair type').selectOption({ label: type })
  if (more.coveredBy !== undefined)
    await form
      .getByRole('group', { name: 'Covered by' })
      .getByRole('checkbox', { name: more.coveredBy })
      .check()
  await form.getByRole('button', { name: 'Add the repair' }).click()
  await form.waitFor({ state: 'detached' })
}

describe('the first start', () => {
  browserTest('makes a workshop with its manager, people and bays', async () => {
    const served = await serve({ setUp: false })
    const { page } = await served.open()
    const { page: other } = await served.open()
    await page.getByRole('button', { name: 'Look around the demo' }).waitFor()
    await page
      .getByText(/An invented workshop/)
      .filter({ hasText: `${demoPeople.maren.name}, with ${demoPeople.maren.code}` })
      .waitFor()

    // What is wrong is said where it is, and nothing that was typed is lost.
    await page.getByRole('button', { name: 'Set up your workshop' }).click()
    await page.getByLabel('Name of the workshop').fill('Alder Yard')
    await page.getByLabel('The manager’s own code').fill('2718')
    await page.getByLabel('The code once more').fill('2719')
    await page.getByRole('button', { name: 'Set up the workshop' }).click()
    await page.getByRole('alert').first().waitFor()
    const code = page.getByLabel('The manager’s own code')
    await expect.poll(() => code.getAttribute('aria-invalid')).toBe('true')
    await expect.poll(() => page.getByLabel('Name of the workshop').inputValue()).toBe('Alder Yard')
    await page.getByRole('button', { name: 'Cancel' }).click()

    await setUp(page)
    // Whoever has just chosen a code need not give it again; another screen joins in by itself.
    await page.getByText(`Signed in: ${nora.name}`).waitFor()
    await other.getByRole('navigation', { name: 'Screens' }).first().waitFor()

    await page.getByRole('button', { name: 'Add a person' }).click()
    const person = dialog(page, 'Add a person')
    await person.getByLabel('Name').fill('Ossip Rand 🔧')
    await person.getByRole('checkbox', { name: 'sheet metal' }).check()
    await person.getByLabel('First code').fill('8182')
    await person.getByRole('button', { name: 'Add this person' }).click()
    await page.getByRole('heading', { name: 'Ossip Rand 🔧' }).waitFor()

    // Who becomes a manager is asked for a code as long as a manager's.
    await page.getByRole('button', { name: 'Change Ossip Rand 🔧' }).click()
    const changed = dialog(page, 'Ossip Rand 🔧')
    await changed.getByRole('checkbox', { name: 'manager' }).check()
    await changed.getByLabel('New code, as a manager').fill('8182')
    await changed.getByRole('button', { name: 'Keep the changes' }).click()
    await changed.getByRole('alert').getByText("a manager's 6 or more").waitFor()
    await changed.getByLabel('New code, as a manager').fill('818283')
    await changed.getByRole('button', { name: 'Keep the changes' }).click()
    await page.getByText('technician and manager').waitFor()

    await page.getByRole('link', { name: 'Bays' }).click()
    await page.getByRole('button', { name: 'Add a bay' }).click()
    const bay = dialog(page, 'Add a bay')
    await bay.getByLabel('Name').fill('Annexe')
    await bay.getByRole('checkbox', { name: 'metalwork' }).check()
    await bay.getByRole('button', { name: 'Add it', exact: true }).last().click()
    await bay.waitFor({ state: 'detached' })
    await other.getByRole('link', { name: 'Shop floor' }).click()
    await other.getByRole('button', { name: 'book Annexe' }).waitFor()
  })

  browserTest('goes on with a car, its repairs, what covers what, and an accepted estimate', async () => {
    const served = await serve({ setUp: false })
    const { page } = await served.open()
    await setUp(page)
    await addCar(page, { name: 'Corran 5', shell: '21/A' })
    await page.getByRole('link', { name: 'Corran 5' }).click()
    await page.getByText('No repair on this car yet').waitFor()
    await addRepair(page, 'Boot floor')
    await page.getByRole('heading', { name: 'Boot floor' }).waitFor()
    await addRepair(page, 'Spare-wheel well', { coveredBy: 'Boot floor' })
    await page.getByText('covers Spare-wheel well').waitFor()

    // A circle of covers is refused, and named.
    await page.getByRole('button', { name: 'another covers it' }).click()
    const link = dialog(page, /^What covers/)
    await link.getByLabel('The other repair').selectOption({ label: 'Spare-wheel well' })
    await link.getByRole('button', { name: 'Link them' }).click()
    await link.getByRole('alert').getByText('Boot floor').first().waitFor()
    await link.getByRole('button', { name: 'Cancel' }).click()

    await page.getByRole('link', { name: 'Photos 1' }).click()
    await page.locator('figure img').first().waitFor()

    await page.getByRole('link', { name: 'Estimate' }).click()
    await page.getByRole('button', { name: /^The owner accepts/ }).click()
    const accept = dialog(page, 'Corran 5: the owner accepts')
    await accept.getByRole('radio', { name: 'letter' }).check()
    await accept.getByRole('button', { name: 'Go on to sign' }).click()
    await sign(page, 'Corran 5: the owner accepts', nora)
    await page.getByRole('button', { name: /^The owner accepts/ }).waitFor({ state: 'detached' })
    await page.getByText('all accepted ✓').waitFor()
  })

  browserTest('books a car into a bay, and refuses a second one with who has it and when', async () => {
    const served = await serve({
      before: (workshop) => {
        workshop.addCar('Larkspur 4', 'S-101')
        workshop.addCar('Merrin 2', 'S-102')
      },
    })
    const { page } = await served.open({ at: '/shop-floor' })
    await signIn(page)
    const book = async (car: string, from: string, to: string) => {
      await page.getByRole('button', { name: 'book Metal 1' }).click()
      const form = dialog(page, 'Book a car into a bay')
      await form.getByLabel('Car').selectOption({ label: car })
      await form.getByLabel('From').fill(from)
      await form.getByLabel('To, the last day').fill(to)
      await form.getByRole('button', { name: 'Book it' }).click()
      return form
    }
    const first = await book('Larkspur 4, shell S-101', '2026-11-30', '2026-12-11')
    await first.waitFor({ state: 'detached' })
    await page.getByText('in Metal 1, 30 Nov to 11 Dec').waitFor()

    const second = await book('Merrin 2, shell S-102', '2026-12-10', '2026-12-18')
    await second.getByText('Larkspur 4 is in Metal 1 30 Nov to 11 Dec.').waitFor()
    await second.getByLabel('From').fill('2026-12-14')
    await second.getByRole('button', { name: 'Book it' }).click()
    await second.waitFor({ state: 'detached' })
    await page.getByText('in Metal 1, 14 to 18 Dec').waitFor()
  })
})
